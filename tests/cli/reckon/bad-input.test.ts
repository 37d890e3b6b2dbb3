import { describe, expect, it } from 'vitest';
import { runReckon } from '../../../src/cli/reckon/run-reckon.ts';
import { topics } from '../../../src/cli/reckon/topics.ts';
import { wordsOf } from './ask.ts';

const JUNK = [
  '0',
  '-1',
  '-0',
  'NaN',
  'Infinity',
  '1e9',
  '999999999',
  '0 mm',
  '400 mm',
  '1/0 in',
  '180',
  '360',
  '5 kg',
  '0%',
  '100%',
  'abc',
  ',',
  ';',
  '0,0',
  'M0',
  '-',
];

describe('bad input to reckon', () => {
  it.each(topics)('$name: no value of any flag brings out NaN, Infinity or a crash', ({ flags, example }) => {
    const words = wordsOf(example);
    for (const { name } of flags) {
      const at = words.indexOf(`--${name}`);
      for (const junk of JUNK) {
        const changed = at < 0 ? [...words, `--${name}=${junk}`] : words.toSpliced(at, 2, `--${name}=${junk}`);
        for (const args of [changed, [...changed, '--json']]) {
          let out = '';
          let err = '';
          const io = {
            out: (text: string) => {
              out += text;
            },
            err: (text: string) => {
              err += text;
            },
          };
          const code = runReckon(args, io);
          expect([0, 1, 64], args.join(' ')).toContain(code);
          expect(out, args.join(' ')).not.toMatch(/NaN|Infinity|undefined|\bnull mm/);
          if (code !== 0) expect([out, err.length > 0], args.join(' ')).toEqual(['', true]);
        }
      }
    }
  });
});
