import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';

it('every entry of the mutation trial still stands in its source', () => {
  const trial = fileURLToPath(new URL('mutation-trial.mjs', import.meta.url));
  const { status, stdout } = spawnSync(process.execPath, [trial, '--list'], { encoding: 'utf8' });
  expect(stdout).toMatch(/^1\d\d entries, 0 not found once$/m);
  expect(status).toBe(0);
});
