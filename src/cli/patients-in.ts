import { readdirSync } from 'node:fs';
import { shownPath } from '../folder/folder.ts';
import { failedLoading, type Loading } from './load.ts';

/** The patient files of a folder by their names; the template of a new practice is nobody. */
export function patientsIn(folder: string): Loading<readonly string[]> {
  const wrong = (message: string) => failedLoading([{ code: 'not-found', file: shownPath(folder), message }]);
  try {
    const names = readdirSync(folder)
      .filter((n) => n.endsWith('.yaml') && n !== 'TEMPLATE.yaml')
      .sort();
    return names.length > 0
      ? { ok: true, value: names }
      : wrong('there is no patient file (NAME.yaml) in this folder');
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    return wrong(code === 'ENOENT' ? 'there is no such folder' : 'this folder cannot be read');
  }
}
