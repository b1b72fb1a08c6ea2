import {
  closeSync,
  fsyncSync,
  linkSync,
  mkdirSync,
  openSync,
  readdirSync,
  readFileSync,
  statSync,
  unlinkSync,
  writeSync,
} from 'node:fs';

/** What records ask of a disk. Tests put one in its place that fails, or dies, at any of these. */
export interface Disk {
  /** The names in a folder; none where there is no such folder. */
  list(folder: string): string[];
  read(file: string): string;
  /** Seconds since the file was last written. */
  age(file: string): number;
  makeFolder(folder: string): void;
  /** A new file; an error with the code EEXIST where there is one of that name. */
  create(file: string): number;
  write(handle: number, text: string): void;
  sync(handle: number): void;
  close(handle: number): void;
  /** A second name for a file, given in one step; an error with the code EEXIST where the name is taken. */
  link(from: string, to: string): void;
  /** How many names a file has. */
  links(file: string): number;
  remove(file: string): void;
  /** Makes sure that the names in a folder outlast a loss of power, where the system can. */
  syncFolder(folder: string): void;
}

// Whom a remedy was handed to is nobody else's business on a shared computer.
const PRIVATE_FILE = 0o600;
const PRIVATE_FOLDER = 0o700;

export const DISK: Disk = {
  list: (folder) => {
    try {
      return readdirSync(folder);
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code === 'ENOENT') return [];
      throw error;
    }
  },
  read: (file) => readFileSync(file, 'utf8'),
  age: (file) => (Date.now() - statSync(file).mtimeMs) / 1000,
  makeFolder: (folder) => {
    mkdirSync(folder, { recursive: true, mode: PRIVATE_FOLDER });
  },
  create: (file) => openSync(file, 'wx', PRIVATE_FILE),
  write: (handle, text) => {
    const bytes = Buffer.from(text, 'utf8');
    for (let from = 0; from < bytes.length; ) from += writeSync(handle, bytes, from);
  },
  sync: fsyncSync,
  close: closeSync,
  link: linkSync,
  links: (file) => statSync(file).nlink,
  remove: unlinkSync,
  syncFolder: (folder) => {
    try {
      const handle = openSync(folder, 'r');
      try {
        fsyncSync(handle);
      } finally {
        closeSync(handle);
      }
    } catch (error) {
      // Windows opens no folder, and some network shares sync none.
      if (
        !['EISDIR', 'EPERM', 'EACCES', 'EINVAL', 'ENOTSUP'].includes(
          (error as NodeJS.ErrnoException).code ?? '',
        )
      )
        throw error;
    }
  },
};
