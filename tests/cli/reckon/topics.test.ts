import { describe, expect, it } from 'vitest';
import { topics } from '../../../src/cli/reckon/topics.ts';
import { ask, askJson } from './ask.ts';

/** What the example of each topic's help must answer: the text, and what its JSON holds. Sources beside the values. */
const EXAMPLES: Readonly<Record<string, readonly [text: string, fields: Readonly<Record<string, unknown>>]>> = {
  // n = 1000 v / (pi d).
  speed: ['set 680 rpm, the fastest at or below 955', { spindle_speed_rpm: 954.93, chosen_speed_rpm: 680 }],
  // Worked batch: 3.4 to 6.7 s a hole.
  feed: [
    '.0020 in to .0040 in a turn; 5.4 to 10.8 in/min; 3.4 s to 6.7 s for the travel',
    { quickest_s: 3.35, slowest_s: 6.7 },
  ],
  // 27 mm / 80 mm a minute.
  time: ['20 s', { time_s: 20.25 }],
  drill: ['wind 10.004 mm from touching the top', { travel_mm: 10.004 }],
  // Worked batch: .375 - .3594 = .0156.
  ream: ['sound: leaves .0156 in on the diameter', { verdict: 'sound', stock_on_diameter_in: 0.01563 }],
  countersink: ['3.5 mm deep from touching the face', { depth_mm: 3.5 }],
  // ISO 4762 knurled head 5.68; DIN 974-1.
  counterbore: ['6 mm (.2362 in), 3.4 mm deep: clears the head by 0.16 mm a side', { clears: true, head_mm: 5.68 }],
  tap: ['M6 at 75 % of 5H/8: hole 5.188 mm (.2043 in); lies above the maximum 5.153 mm', { tap_drill_mm: 5.188 }],
  // ISO 273.
  clearance: ['M12: fine 13 mm (.5118 in), medium 13.5 mm (.5315 in), coarse 14.5 mm', { medium_mm: 13.5 }],
  // ASME B1.1: 1/4-20 pitch diameter .2175, minor .1959 in.
  thread: [
    '1/4-20 UNC: major .2500 in, pitch .0500 in (20 an inch), pitch diameter .2175 in, minor .1959 in',
    { pitch_mm: 1.27 },
  ],
  // Worked batch: stop at 17, bottoms at 18, .5625 in.
  'tap-turns': [
    'stop at 17 turns; bottoms at 18; drill .5625 in of full diameter',
    { stop_at_turns: 17, bottoms_at_turns: 18 },
  ],
  // 90 x 1 / 60 x 1.
  'power-tap': ['tap under power: runs on 1.5 mm, which fits', { verdict: 'fits', runs_on_mm: 1.5 }],
  circle: ['6 points on 40 mm; neighbours 20 mm apart', { chord_mm: 20 }],
  row: ['5 points at 20 mm', { pitch_mm: 20 }],
  grid: ['6 points, row by row', {}],
  mirror: [
    'mirrored about X 30 mm',
    {
      points: [
        { x_mm: 50, y_mm: 5 },
        { x_mm: 40, y_mm: 5 },
      ],
    },
  ],
  turn: ['turned by 90 deg about X 0 mm  Y 0 mm', { points: [{ x_mm: 0, y_mm: 10 }] }],
  // 20 cos 30, 20 sin 30.
  polar: ['X 17.321 mm  Y 10 mm', { x_mm: 17.321, y_mm: 10 }],
  distance: ['50 mm centre to centre; wall 42 mm; over pins 58 mm', { wall_mm: 42, over_pins_mm: 58 }],
  order: [
    '4, 1, 3, 2: 1 winding past, 30 mm of winding',
    { windings_past: 1, windings_past_as_given: 2, proven: true },
  ],
  dial: ['4 + 117 (turns + divisions)', { turns: 4, divisions: 117 }],
  zero: ['set X to -5 mm at touch', { set_mm: -5, touch_moves: 'plus' }],
  // L sin A.
  sine: ['stack 21.644 mm', { stack_mm: 21.644 }],
  // ISO 286-2.
  fit: ['20 mm H7: 0 to +21 um, 20 mm to 20.021 mm', { upper_um: 21 }],
  // ISO 2768-1 table 1.
  tolerance: ['+-0.2 mm (.0079 in)', { plus_minus_mm: 0.2 }],
  stack: [
    '80 mm: worst case +-0.8 mm, root-sum-square +-0.4 mm',
    { worst_case_plus_minus_mm: 0.8, chain_to_absolute: 2.666667 },
  ],
  blanks: ['21 blanks a bar, 27.7 mm left', { blanks: 21 }],
  bars: ['3 bars, 3000 mm in all; waste 64 mm', { proven: true, taken_mm: 3000 }],
  mass: ['2.466 kg (5.44 lb)', { mass_kg: 2.466 }],
  // 3 x (60 / 300) squared.
  bow: ['0.12 mm over 60 mm', { bow_mm: 0.12 }],
  spares: ['start 44 (4 spares): 93.3 % sure of 40 good', { start: 44 }],
  // Worked batch.
  loads: ['32 loads: 31 of 2 and 1 of 1', { loads: 32, last_load: 1 }],
  facing: ['face at 40.2 mm to 40.7 mm', { never: [3] }],
  // ASME B94.11M.
  convert: ['5.1054 mm = 0.201 in', { length_mm: 5.1054, length_in: 0.201 }],
};

describe('the table of topics', () => {
  it('every topic has an example here, and no name twice', () => {
    expect(topics.map((topic) => topic.name).sort()).toEqual(Object.keys(EXAMPLES).sort());
  });

  it.each(topics)('$name: its example answers rightly, in words and in JSON', ({ name, example }) => {
    const [text, fields] = EXAMPLES[name] ?? ['', {}];
    const said = ask(example);
    expect(said).toMatchObject({ code: 0, err: '' });
    expect(said.out.split('\n')[0]).toContain(text);
    expect(askJson(example)).toMatchObject({ format: 1, topic: name, ...fields });
  });

  it.each(topics)(
    '$name: help shows every flag and the example within 80 columns',
    ({ name, flags, example, needs }) => {
      const { code, out } = ask(`${name} --help`);
      expect(code).toBe(0);
      for (const flag of flags) expect(out).toContain(`--${flag.name} ${flag.value}`);
      expect(out).toContain(`Example: millside reckon ${example}`);
      const long = out.split('\n').filter((line) => line.length > 80 && !line.startsWith('Example'));
      expect(long).toEqual([]);
      const names = flags.map((flag) => flag.name);
      expect(needs.flat().filter((flag) => !names.includes(flag))).toEqual([]);
      expect(new Set(names).size).toBe(names.length);
    },
  );

  it.each(topics)(
    '$name: every number in the JSON is finite and every field name says its unit or counts',
    ({ example }) => {
      const numbers: number[] = [];
      JSON.stringify(askJson(example), (_key, value: unknown) => {
        if (typeof value === 'number') numbers.push(value);
        return value;
      });
      expect(numbers.every(Number.isFinite)).toBe(true);
      expect(numbers.length).toBeGreaterThan(1);
    },
  );

  it.each(topics)('$name: without its flags it says what it wants, with exit 64', ({ name, needs }) => {
    const { code, out, err } = ask(name);
    expect([code, out]).toEqual([64, '']);
    for (const flag of needs.flat()) expect(err).toContain(`--${flag}`);
  });
});
