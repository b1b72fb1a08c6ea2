import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    setupFiles: ['tests/seed.ts'],
    testTimeout: 30_000,
    // The command line tests start many processes; two files at a time keep a small machine responsive.
    maxWorkers: 2,
  },
});
