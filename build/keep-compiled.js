// Runs one command of the bundles in the folder named first, and keeps beside each bundle it loaded the code that V8 made
// of it, functions called on the way included. bin/load.js starts from that.
import { writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';

const [folder, ...args] = process.argv.slice(2);
const { load, loaded } = createRequire(import.meta.url)('../bin/load.js');

await load(join(folder, 'main.cjs')).main(args);
for (const [file, { script }] of loaded) writeFileSync(`${file}.compiled`, script.createCachedData());
