import { expect, it } from 'vitest';
import { schemaPage } from '../../src/plan/schema/schema-page.ts';
import { textOf } from './plan-samples.ts';

it('the reference page of the plan language is the one that the schema makes', async () => {
  await expect(schemaPage()).toMatchFileSnapshot('../../jobs/README.md');
  expect(textOf('jobs/README.md')).toContain('| `point angle` |');
});

it('every key of the page says what it means', () => {
  const rows = schemaPage()
    .split('\n')
    .filter((line) => line.startsWith('| `'));
  expect(rows.length).toBeGreaterThan(150);
  expect(rows.filter((row) => row.split('|')[2]?.trim() === '')).toEqual([]);
});
