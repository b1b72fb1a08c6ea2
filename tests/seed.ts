import fc from 'fast-check';

// One seed for every run, so that a change is told from chance; SCRUPLE_SEED tries the laws on others.
const { SCRUPLE_SEED: seed } = process.env;
fc.configureGlobal({ seed: seed === undefined ? 20_260_502 : Number(seed) });
