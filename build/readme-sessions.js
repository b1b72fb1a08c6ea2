// The sessions that README.md shows: run again in a folder of their own, one after the other, as a reader would type them.
import { spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../', import.meta.url));

const SESSION = /^```\n\$ scruple (.+)\n([\s\S]*?)\n```$/gm;

/** Each session with its command and what it shows. */
export function sessionsIn(text) {
  return [...text.matchAll(SESSION)].map(([, command, shown]) => ({ command, shown }));
}

/** Runs commands in turn in a copy of the library and of the invented practice, where some of them write records. */
export function demoPractice() {
  const above = mkdtempSync(join(tmpdir(), 'scruple-readme-'));
  const folder = join(above, 'practice');
  for (const part of ['monographs', 'formulas', 'tests/practice'])
    cpSync(join(root, part), join(folder, part), { recursive: true });
  return {
    print(command) {
      const args = [...command.matchAll(/"([^"]*)"|(\S+)/g)].map(([, quoted, plain]) => quoted ?? plain);
      const { NO_COLOR, FORCE_COLOR, TERM, ...env } = process.env;
      const run = spawnSync(process.execPath, [join(root, 'bin', 'scruple.js'), ...args], {
        cwd: folder,
        env,
        input: '',
        encoding: 'utf8',
      });
      return (run.stdout || run.stderr).trimEnd();
    },
    remove: () => rmSync(above, { recursive: true, force: true }),
  };
}

/** The text with every session as the program prints it today. */
export function withSessionsRun(text) {
  const practice = demoPractice();
  try {
    return text.replace(
      SESSION,
      (_, command) => `\`\`\`\n$ scruple ${command}\n${practice.print(command)}\n\`\`\``,
    );
  } finally {
    practice.remove();
  }
}
