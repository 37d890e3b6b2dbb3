import { defineConfig } from 'vitest/config';

export default defineConfig({
  root: new URL('..', import.meta.url).pathname,
  define: { MILLSIDE_VERSION: '"0.0.0-test"' },
  test: {
    include: ['tests/**/*.test.ts', 'tests/**/*.test.tsx'],
    benchmark: { include: ['tests/bench/**/*.bench.ts'] },
    testTimeout: 30_000,
    maxWorkers: 2,
    // On a shared machine a pseudo-terminal may stand still for seconds; a test that fails twice more has failed.
    retry: process.env['CI'] === undefined ? 0 : 2,
    coverage: { provider: 'v8', include: ['src/**'], reporter: ['text-summary', 'text'] },
  },
});
