// Sound practice that a rule could take for a mistake by its words or numbers: nothing is said of it.
import { describe, expect, it } from 'vitest';
import { findingsOf, textOf } from '../plan-samples.ts';

const base = textOf('tests/samples/wrong-plans/burr-seat.neighbour.yaml');
const found = (code: string, ...edits: (readonly [from: string, to: string])[]) => {
  const text = edits.reduce((before, [from, to]) => {
    expect(before, from).toContain(from);
    return before.replace(from, () => to);
  }, base);
  return findingsOf(text)
    .filter((one) => one.code === code)
    .map((one) => one.message);
};
const noSpares = ['spares: 1', 'spares: 0'] as const;
const check = (words: string) =>
  ['title: Look over, kind: inspect', `title: Look over, checks: [{ ${words}, when: last }], kind: inspect`] as const;

describe('a check that only sounds destroying', () => {
  it.each([
    'title: Section, ask: Is the section 25 x 10',
    'title: Slot, ask: Is it cut through',
    'title: Thread, ask: Is the thread torn',
  ])('%s', (words) => expect(found('spares-none', noSpares, check(words))).toEqual([]));
  it('is no reason for a spare; one that is sawn open is', () =>
    expect(found('spares-none', noSpares, check('title: Thread, ask: Is it full when sawn open'))).toHaveLength(1));
});

describe('limits', () => {
  it.each([
    'title: Gap, nominal: 0.05, limits: [0, 0.1]',
    'title: Run-out, nominal: 0, within: 0.02',
    'title: Edge broken, nominal: 0.5, within: 0.3',
    'title: Length, nominal: 100, within: 0.3, gauge: rule',
    'title: Over pins, nominal: 112, within: 0.05, gauge: calliper 0.02',
    'title: Bore, nominal: 10, limits: [10, 10.015], gauge: plug 10 H7',
    'title: Length of slot, nominal: 17, within: 0.2',
  ])('%s', (words) => expect(found('check-limits', check(words))).toEqual([]));
});

describe('a slot to full depth at once', () => {
  const rough =
    'lines:\n  rough: { kind: slot, along: x, at: 12.5, from: 25, to: 42, ends: { from: closed, to: closed }, width: 5, passes: [2, 4, 6, 8] }\n';
  const whole = ['passes: [2, 4]', 'depth: 8'] as const;
  const roughing = [
    '  - { number: 120,',
    '  - { number: 115, title: Rough, kind: slot, setup: top, tool: end-mill-5, lines: rough }\n  - { number: 120,',
  ] as const;
  it('is told', () => expect(found('pass-deep', whole)).toHaveLength(1));
  it('is not told once a smaller cutter has opened it', () =>
    expect(
      found('pass-deep', whole, ['lines:\n', rough], roughing, [
        '  end-mill-6:',
        '  end-mill-5: { kind: end mill, diameter: 5, flutes: 2 }\n  end-mill-6:',
      ]),
    ).toEqual([]));
});

describe('one place', () => {
  it('that a drill opens for one kind of part and another for the other is drilled once each', () =>
    expect(
      found(
        'place-twice',
        ['quantity: 12\n', 'variants: { a: { quantity: 6, marking: a }, b: { quantity: 6, marking: b } }\n'],
        [
          'tool: drill-6.6, points: screw, depth: through',
          'tool: drill-6.6, points: screw, depth: through, variants: a',
        ],
        [
          '  - { number: 110,',
          '  - { number: 105, title: Also, kind: drill, setup: top, tool: drill-6.6, points: screw, depth: through, variants: b }\n  - { number: 110,',
        ],
      ),
    ).toEqual([]));
});

describe('the same points on both ends', () => {
  const end = (name: string, up: string) =>
    `  ${name}: { machine: mill, hold: fixture, lies: on end, up: ${up}, zero: { x: { how: pin, tip: 10, against: pin, end: left }, y: { how: pin, tip: 10, against: pin, end: rear }, z: { how: touch } } }\n`;
  const work = (number: number, setup: string, taps: boolean) =>
    [
      `  - { number: ${number}, title: Spot, kind: spot, setup: ${setup}, tool: spot-16, points: end hole, top: 6.3 }`,
      `  - { number: ${number + 1}, title: Drill, kind: drill, setup: ${setup}, tool: drill-5, points: end hole, depth: 8 }`,
      ...(taps
        ? [
            `  - { number: ${number + 2}, title: Tap, kind: tap, setup: ${setup}, tool: tap-m6, points: end hole, thread: M6, full thread: 3, by hand: yes }`,
          ]
        : []),
      `  - { number: ${number + 3}, title: Deburr, kind: deburr, machine: bench }\n`,
    ].join('\n');
  const both = (firstTaps: boolean, lastDrills = '') =>
    base
      .replace(
        'points:\n',
        `${end('end-left', 'left end')}${end('end-right', 'right end')}\npoints:\n  end hole: { x: 18, y: -5 }\n`,
      )
      .replace(
        '  - { number: 140,',
        `${work(131, 'end-left', firstTaps)}${work(135, 'end-right', true)}${lastDrills}  - { number: 140,`,
      );

  it('are two holes, each with its own thread', () =>
    expect(findingsOf(both(true)).filter((one) => one.severity !== 'note')).toEqual([]));

  it('a thread in an end that nothing drills is told, whatever the other end has', () => {
    const text = both(true).replace(/ {2}- \{ number: 136, .*\n/, '');
    expect(findingsOf(text).map((one) => `${one.code} ${one.operation}`)).toContain('before-its-hole 137');
  });
});

// The bore of .750 in begins .375 in below the edge: drilled .500 in the hole opens into it, drilled .300 in it does not.
describe('a thread that opens into a bore', () => {
  const levers = textOf('tests/samples/sound-plans/levers-inch.yaml');
  const room = (depth: string, thread: string) =>
    findingsOf(
      levers.replace('depth: .500 }', `depth: ${depth} }`).replace('full thread: .376', `full thread: ${thread}`),
    )
      .filter((one) => one.code === 'tap-room')
      .map((one) => one.severity);

  it('has room below', () => expect(room('.500', '.376')).toEqual([]));
  it('has none where the hole ends before it', () => expect(room('.300', '.376')).toEqual(['stop']));
});
