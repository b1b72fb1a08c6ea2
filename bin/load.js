// Runs a bundle of dist/ from the code that the build kept of it (build/keep-compiled.js), so that a start does not compile it
// anew. V8 refuses code that another version of itself made; the bundle is then compiled as usual, only more slowly.
const { readFileSync } = require('node:fs');
const { dirname, join } = require('node:path');
const { Script } = require('node:vm');

const loaded = new Map();

/** The exports of a bundle. Bundles that it asks for in turn (`./name.cjs`) come the same way. */
function load(file) {
  const known = loaded.get(file);
  if (known) return known.module.exports;
  const dir = dirname(file);
  const source = `(function(exports,require,module,__filename){${readFileSync(file, 'latin1')}\n})`;
  const script = new Script(source, { filename: file, cachedData: keptOf(file) });
  const module = { exports: {} };
  loaded.set(file, { script, module });
  const ask = (id) => (id.startsWith('./') ? load(join(dir, id)) : require(id));
  script.runInThisContext()(module.exports, ask, module, file);
  return module.exports;
}

function keptOf(file) {
  try {
    return readFileSync(`${file}.compiled`);
  } catch {
    return undefined;
  }
}

module.exports = { load, loaded };
