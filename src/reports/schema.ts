import { type Sheet, words } from './sheet.ts';

/** A kind of file, or what the program prints, that has a JSON Schema. */
export interface Schemed {
  readonly name: string;
  readonly says: string;
}

export function schemasSheet(schemas: readonly Schemed[]): Sheet {
  return {
    title: 'What has a JSON Schema',
    blocks: [
      {
        kind: 'table',
        columns: [{ head: 'name' }, { head: 'what it is' }],
        rows: schemas.map(({ name, says }) => [words(name), words(says)]),
      },
      { kind: 'lines', lines: [words('Next: scruple schema NAME')] },
    ],
  };
}

export function schemasJson(schemas: readonly Schemed[]): Record<string, unknown> {
  return { schemas: schemas.map(({ name, says }) => ({ name, says })) };
}

/** A schema on a page of its own, to be copied as it stands. */
export function schemaSheet(name: string, document: string): Sheet {
  return { title: `JSON Schema: ${name}`, blocks: [{ kind: 'copy', lines: document.trimEnd().split('\n') }] };
}
