import { defineConfig } from 'vitest/config';

/** The tests of the pure core, without those that start the program: a mutant is in the source, and not in its bundle. */
export default defineConfig({
  test: {
    include: ['tests/{measure,compounding,dosing,checking,laws,reference,practice,gathering}/**/*.test.ts'],
    setupFiles: ['tests/seed.ts'],
    testTimeout: 30_000,
  },
});
