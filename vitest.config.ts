import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    setupFiles: ['tests/seed.ts'],
    testTimeout: 60_000,
    // The command line tests start many processes, fifty at once in one of them: what runs beside it waits.
    maxWorkers: 2,
  },
});
