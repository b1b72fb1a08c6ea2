#!/usr/bin/env node
// CommonJS, as bin/package.json says: Node starts it without setting up its module loader, and that is a tenth of a start.
const { join } = require('node:path');
const { load } = require('./load.js');

load(join(__dirname, '../dist/main.cjs')).main(process.argv.slice(2));
