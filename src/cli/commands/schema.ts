import { isSchemaName, jsonSchema, SCHEMAS, type SchemaName, schemaText } from '../../folder/json-schema.ts';
import { nearest } from '../../measure/nearest.ts';
import { schemaSheet, schemasJson, schemasSheet } from '../../reports/schema.ts';
import { answered, misused, type Outcome } from '../outcome.ts';

/** The JSON Schema of a kind of file or of the program's output; without a name, which there are. */
export async function schema([name]: readonly string[]): Promise<Outcome> {
  if (name === undefined) {
    const all = Object.entries(SCHEMAS).map(([n, { says }]) => ({ name: n, says }));
    return answered([{ name: 'schemas', sheet: schemasSheet(all), result: schemasJson(all) }]);
  }
  if (!isSchemaName(name)) return misused(`there is no schema "${name}": ${meant(name)}`);
  const made = await jsonSchema(name);
  const document = schemaText(made);
  return answered([{ name, sheet: schemaSheet(name, document), document, result: { name, schema: made } }]);
}

function meant(name: string): string {
  const names = Object.keys(SCHEMAS) as SchemaName[];
  const near = nearest(name, names);
  return near.length > 0 ? `did you mean ${near.join(' or ')}?` : 'scruple schema lists the names';
}
