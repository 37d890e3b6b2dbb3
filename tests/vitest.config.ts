import { defineConfig } from 'vitest/config';

export default defineConfig({
  root: new URL('..', import.meta.url).pathname,
  define: { MILLSIDE_VERSION: '"0.0.0-test"' },
  test: {
    projects: [
      {
        extends: true,
        test: { name: 'floors', include: ['tests/**/*.test.{ts,tsx}'], exclude: ['tests/stories/**'] },
      },
      {
        extends: true,
        test: {
          name: 'stories',
          include: ['tests/stories/**/*.test.ts'],
          // On a shared machine a pseudo-terminal may stand still for seconds. Only here: a retry elsewhere would hide
          // what a property test found once.
          retry: process.env['CI'] === undefined ? 0 : 2,
        },
      },
    ],
    benchmark: { include: ['tests/bench/**/*.bench.ts'] },
    testTimeout: 30_000,
    maxWorkers: 2,
    coverage: { provider: 'v8', include: ['src/**'], reporter: ['text-summary', 'text'] },
  },
});
