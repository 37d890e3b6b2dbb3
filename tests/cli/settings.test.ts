import { mkdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { settingKeys } from '../../src/cli/setting-keys.ts';
import { runSettings } from '../../src/cli/settings.ts';
import { loadSettings } from '../../src/sitting/settings.ts';
import { readShopMachines } from '../../src/sitting/shop-machines.ts';
import { type Bench, makeBench } from './fake-io.ts';

let bench: Bench;
beforeEach(() => {
  bench = makeBench();
});
afterEach(() => bench.clear());

const set = (...words: string[]) => bench.run(runSettings, ...words);
const file = () => JSON.parse(readFileSync(bench.at('config/settings.json'), 'utf8'));
async function rowsOf(...words: string[]) {
  const told = await set('--json', ...words);
  return JSON.parse(told.out).settings as { key: string; value: unknown; from: string; meaning: string }[];
}

describe('millside settings', () => {
  it('shows every key with its meaning, all from the defaults where there is no file, and makes none', async () => {
    const rows = await rowsOf();
    expect(rows.map((row) => row.key)).toEqual(settingKeys().map((one) => one.key));
    expect(new Set(rows.map((row) => row.from))).toEqual(new Set(['default']));
    for (const row of rows) expect(row.meaning).not.toBe('');
    expect(() => statSync(bench.at('config'))).toThrow();
    expect((await set()).out).toMatch(/^report\.allowance_pct +5 +default$/m);
  });

  it('has the documented JSON shape', async () => {
    const told = JSON.parse((await set('--json', 'report.allowance_pct')).out);
    expect(told).toEqual({
      format: 1,
      file: bench.at('config/settings.json'),
      settings: [
        { key: 'report.allowance_pct', value: 5, from: 'default', meaning: expect.stringMatching(/^Allowance/) },
      ],
      folders: [
        { holds: 'data', path: bench.at('home'), from: 'MILLSIDE_HOME' },
        { holds: 'settings', path: bench.at('config'), from: 'MILLSIDE_CONFIG' },
      ],
      notes: [],
    });
  });

  it('changes one, keeps the others, in a file of its owner alone', async () => {
    expect(await set('report.allowance_pct', '12')).toMatchObject({ code: 0, out: '' });
    expect((await set('screen.hand', 'left')).err).toContain('screen.hand is now left');
    expect(file()).toEqual({ report: { allowance_pct: 12 }, screen: { hand: 'left' } });
    expect(loadSettings(bench.at('config')).values).toMatchObject({ report: { allowance_pct: 12, rating_pct: 100 } });
    expect(statSync(bench.at('config/settings.json')).mode & 0o777).toBe(0o600);
    expect((await rowsOf('report')).find((row) => row.key === 'report.allowance_pct')?.from).toBe('settings');
  });

  it.each([
    ['initials', '12', '12'],
    ['screen.sound', 'false', false],
    ['hours.week.mon', '[["18:30","22:00"]]', [['18:30', '22:00']]],
    ['report.rate', '{"amount": 42, "currency": "EUR"}', { amount: 42, currency: 'EUR' }],
    ['report.margin_pct', 'null', null],
  ])('takes JSON or plain text for %s: %s', async (key, text, value) => {
    expect((await set(key, text)).code).toBe(0);
    expect((await rowsOf(key))[0]?.value).toEqual(value);
  });

  it.each([
    ['report.allowance_pct', 'lots'],
    ['report.allowance_pct', '91'],
    ['screen.hand', 'middle'],
    ['hours.week.mon', '[["18:30","18:30"]]'],
    ['machines.lathe', '{"station": "lathe"}'],
    ['machines.mill', '{"station": "mill", "speds": [80]}'],
  ])('refuses %s %s by the schema with exit 65 and changes nothing', async (key, text) => {
    const told = await set(key, text);
    expect(told).toMatchObject({ code: 65, out: '' });
    expect(told.err).toContain(key.split('.')[0]);
    expect(() => file()).toThrow();
  });

  it('names the nearest key for one that there is not: exit 64', async () => {
    const told = await set('report.alowance_pct', '5');
    expect(told.code).toBe(64);
    expect(told.err).toContain('did you mean report.allowance_pct?');
    expect((await set('screen.hand.left', '1')).code).toBe(64);
    expect((await set('a', 'b', 'c')).code).toBe(64);
    expect((await set('--default')).code).toBe(64);
  });

  it('puts one back to its default', async () => {
    await set('screen.colour', 'off');
    await set('screen.hand', 'left');
    expect((await set('--default', 'screen.colour')).code).toBe(0);
    expect(file()).toEqual({ screen: { hand: 'left' } });
    expect((await set('screen', '--default')).code).toBe(0);
    expect(file()).toEqual({});
  });

  it('says that the environment goes before the file for colour', async () => {
    await set('screen.colour', 'on');
    const said = { out: '', err: '' };
    await runSettings(['--json', 'screen.colour'], bench.io(said, { NO_COLOR: '1' }));
    expect(JSON.parse(said.out).settings[0]).toMatchObject({ value: 'off', from: 'environment' });
    const empty = { out: '', err: '' };
    await runSettings(['--json', 'screen.colour'], bench.io(empty, { NO_COLOR: '' }));
    expect(JSON.parse(empty.out).settings[0]).toMatchObject({ value: 'on', from: 'settings' });
  });

  it('[P14] names a value that does not fit, shows the default, and lets it be set again beside the others', async () => {
    mkdirSync(bench.at('config'));
    writeFileSync(bench.at('config/settings.json'), '{"screen": {"hand": "middle", "sound": false}}');
    const told = await set('--json', 'screen.hand');
    expect(JSON.parse(told.out)).toMatchObject({
      settings: [{ value: 'right', from: 'default' }],
      notes: [{ what: expect.stringContaining('screen.hand') }],
    });
    expect((await set('screen.hand', 'left')).code).toBe(0);
    expect(file()).toEqual({ screen: { hand: 'left', sound: false } });
  });

  it('keeps machines as they were written and reads them as a plan does', async () => {
    const mill = { station: 'mill', speeds: [80, '130'], readout: '0.0005 in', 'inward feed': true };
    expect((await set('machines.mill', JSON.stringify(mill))).code).toBe(0);
    expect(file().machines.mill).toEqual(mill);
    const { machines } = loadSettings(bench.at('config')).values;
    expect(readShopMachines(machines)['mill']).toMatchObject({
      station: 'mill',
      speeds: [80, 130],
      readout: 0.0127,
      'inward feed': true,
    });
  });
});
