import { describe, expect, it } from 'vitest';
import { detectTheme } from '../../src/screen/theme.ts';

const utf8 = { TERM: 'xterm-256color', LANG: 'de_DE.UTF-8' };
const colour = (env: Record<string, string>, isTty = true): boolean => detectTheme({ ...utf8, ...env }, isTty).colour;

describe('the theme', () => {
  it('a usual terminal has a full screen, colour and boxes on a dark ground', () => {
    expect(detectTheme(utf8, true)).toEqual({ view: 'screen', colour: true, ascii: false, ground: 'dark' });
    expect(detectTheme({ TERM: 'linux', LANG: 'C.UTF-8' }, true)).toEqual({
      view: 'screen',
      colour: true,
      ascii: false,
      ground: 'dark',
    });
  });

  it('NO_COLOR set and not empty means no colour, whatever its value (no-color.org)', () => {
    expect([colour({ NO_COLOR: '1' }), colour({ NO_COLOR: '0' }), colour({ NO_COLOR: '' })]).toEqual([
      false,
      false,
      true,
    ]);
  });

  it('FORCE_COLOR set and not empty means colour, also off a terminal and against NO_COLOR (force-color.org)', () => {
    expect([
      colour({ FORCE_COLOR: '1' }, false),
      colour({ FORCE_COLOR: 'yes', NO_COLOR: '1' }),
      colour({ FORCE_COLOR: '' }, false),
    ]).toEqual([true, true, false]);
    expect(colour({ FORCE_COLOR: '0' })).toBe(false);
  });

  it('a flag goes before the environment, the environment before settings, settings before detection', () => {
    const env = { ...utf8, NO_COLOR: '1' };
    expect(detectTheme(env, true, { colour: 'on' }).colour).toBe(true);
    expect(detectTheme(env, true, {}, { colour: 'on' }).colour).toBe(false);
    expect(detectTheme({ ...utf8, TERM: 'vt220' }, true, {}, { colour: 'on' }).colour).toBe(true);
    expect(detectTheme(utf8, true, { glyphs: 'box' }, { glyphs: 'ascii' }).ascii).toBe(false);
  });

  it.each([
    ['TERM=dumb', { TERM: 'dumb' }, true],
    ['no TERM', {}, true],
    ['no terminal', utf8, false],
  ])('%s means plain lines, also when a screen was asked for', (_name, env, isTty) => {
    expect(detectTheme(env, isTty, { view: 'screen' }).view).toBe('lines');
  });

  it('plain lines can be asked for, as a screen reader needs them', () => {
    expect(detectTheme(utf8, true, {}, { view: 'lines' }).view).toBe('lines');
  });

  it('a VT220 is ASCII without colour (terminfo vt220 has no colors)', () => {
    expect(detectTheme({ TERM: 'vt220', LANG: 'C.UTF-8' }, true)).toEqual({
      view: 'screen',
      colour: false,
      ascii: true,
      ground: 'dark',
    });
  });

  it('a locale without UTF-8 means ASCII; LC_ALL goes before LANG, an empty one counts as not set', () => {
    expect(detectTheme({ TERM: 'xterm' }, true).ascii).toBe(true);
    expect(detectTheme({ TERM: 'xterm', LANG: 'en_GB.ISO-8859-1' }, true).ascii).toBe(true);
    expect(detectTheme({ ...utf8, LC_ALL: 'C' }, true).ascii).toBe(true);
    expect(detectTheme({ ...utf8, LC_ALL: '' }, true).ascii).toBe(false);
  });

  it('COLORFGBG tells a light ground', () => {
    expect(detectTheme({ ...utf8, COLORFGBG: '0;15' }, true).ground).toBe('light');
    expect(detectTheme({ ...utf8, COLORFGBG: '15;default;0' }, true).ground).toBe('dark');
  });
});
