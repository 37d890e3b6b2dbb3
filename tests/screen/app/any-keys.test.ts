/**
 * Any keys at all, as bytes through the decoder: keys of the binding table, digits, pastes, reports of the terminal, sequences
 * that nobody knows, and short ways into checks, suspects, corrections, remapping and the pieces that are away. Whatever comes,
 * nothing is counted that was not meant, and what stands is what the journal says.
 */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { type BatchLine, foldJournal, foldLine } from '../../../src/batch/evolve.ts';
import { unsoundCell } from '../../../src/batch/flow.ts';
import { type Batch, type BatchState, noBatch } from '../../../src/batch/state.ts';
import { drawApp } from '../../../src/screen/app/draw.ts';
import { decode, flush, startOfKeys } from '../../../src/screen/terminal/decoder.ts';
import { instantAt } from '../../batch/playing.ts';
import { aCheck, anOperation, aVariant, samplePlan, twoVariantPlan } from '../../batch/sample-plan.ts';
import { boxTheme, stillServices } from '../frames/draw-frame.ts';
import { makeRig, type Rig } from './rig.ts';

const plans = [
  twoVariantPlan({ threaded: 3, clearance: 2, spares: 1 }),
  samplePlan({
    variants: [aVariant('plate', 6)],
    operations: [
      anOperation(10, {
        stopLength: 61,
        loadSize: 2,
        counting: 'load',
        checks: [aCheck('size', { every: 2, last: true })],
      }),
      anOperation(20, { title: 'Plate', kind: 'away', away: { to: 'the plater', changes: [] } }),
      anOperation(30, { checks: [aCheck('gauge', { what: { kind: 'yes or no', question: 'Does it go in?' } })] }),
    ],
  }),
];

/** Bytes of one key each: every key that the binding table names, on the keyboard and on a keypad in each of its modes. */
const keys = [
  ...['\r', '\r', ' ', '+', '-', '*', '/', '.', ',', '\x7f', '\x1b'],
  ...'0123456789',
  ...'uprnmtbehzsq?xyQ'.replace('q', ''),
  ...['\x1bOM', '\x1bOk', '\x1bOl', '\x1bOm', '\x1bOj', '\x1bOo', '\x1bOn'],
  ...[...'pqrstuvwxy'].map((char) => `\x1bO${char}`),
  ...[...'ABCDEFHG'].map((char) => `\x1b[${char}`),
  ...['1', '2', '3', '4', '5', '6', '17', '18', '20', '24'].map((code) => `\x1b[${code}~`),
];

/** What no key means: it must change nothing of the batch, of what is asked, or of what is typed. */
const noise = [
  '\x1b[<0;10;20M',
  '\x1b[<0;10;20m',
  '\x1b[24;80R',
  '\x1b[?64;1;2c',
  '\x1b]10;rgb:ffff/ffff/ffff\x07',
  '\x1b[I',
  '\x1b[O',
  '\x1b[999;9Z',
  '\x1b[?2026;2$y',
];
const paste = '\x1b[200~1\r\r3.2\rq\x1b[201~';

/** Short ways to where chance alone seldom comes. */
const ways = [
  '3\r',
  '3.02\r',
  '3.2\r',
  '306\r',
  '3,06\r',
  '/16',
  '/163',
  '/164',
  '2-3\r',
  '/211',
  '-0.06\r',
  '/62',
  '/631',
  'r1',
  '/1',
  '22',
];

type Press = { readonly bytes: string; readonly seconds: number };

const seconds = fc.oneof(
  { weight: 6, arbitrary: fc.double({ min: 3, max: 90, noNaN: true }) },
  { weight: 3, arbitrary: fc.double({ min: 0, max: 1.1, noNaN: true }) },
  { weight: 1, arbitrary: fc.double({ min: 600, max: 40_000, noNaN: true }) },
);
const bytes = fc.oneof(
  { weight: 8, arbitrary: fc.constant('\r') },
  { weight: 8, arbitrary: fc.constantFrom(...keys) },
  { weight: 4, arbitrary: fc.constantFrom(...ways) },
  { weight: 1, arbitrary: fc.constantFrom(...noise, paste) },
  { weight: 1, arbitrary: fc.string({ unit: 'binary', maxLength: 6 }) },
);
const presses: fc.Arbitrary<readonly Press[]> = fc.array(fc.record({ bytes, seconds }), { maxLength: 60, size: 'max' });

const keysIn = (text: string) => {
  const { state, keys: found } = decode(startOfKeys, Buffer.from(text, 'utf8'));
  // As the session hands them on: a focus report is no key (src/screen/terminal/session.ts).
  return [...found, ...flush(state).keys].filter(({ name }) => name !== 'focus-in' && name !== 'focus-out');
};

/** The states of a journal with the line that made each. */
function* steps(lines: readonly BatchLine[]): Generator<{ before: BatchState; line: BatchLine; after: Batch }> {
  let before: BatchState = noBatch;
  for (const line of lines) {
    const after = foldLine(before, line);
    if (after.kind === 'none') throw new Error('the batch went');
    yield { before, line, after };
    before = after;
  }
}

const through = (batch: Batch): number => batch.cells.reduce((sum, cell) => sum + cell.good + cell.scrap, 0);
const isCount = ({ events }: BatchLine): boolean =>
  events.some((event) => event.kind === 'PointDone' || event.kind === 'LoadCounted');

/** Draws the screen as it stands, at two sizes: every line fits. */
function drawn(rig: Rig): void {
  for (const [columns, rows] of [
    [80, 24],
    [50, 15],
  ] as const) {
    const services = { ...stillServices(), now: () => instantAt(rig.now()) };
    const lines = drawApp({
      app: rig.controller.read(),
      services,
      now: services.now(),
      theme: boxTheme,
      columns,
      rows,
    });
    expect(lines.length).toBe(rows);
  }
}

/** Presses everything; between keys, what a key without meaning must not change is looked at. */
async function play(rig: Rig, sequence: readonly Press[]): Promise<void> {
  for (const one of sequence) {
    const before = { lines: rig.lines().length, flow: rig.controller.read().flow, typed: rig.controller.read().typed };
    for (const [i, key] of keysIn(one.bytes).entries()) {
      const count = rig.commands.length;
      await rig.pressKey(key, i === 0 ? one.seconds : 3);
      expect(rig.commands.length - count).toBeLessThanOrEqual(1);
    }
    if (noise.includes(one.bytes) || one.bytes === paste) {
      expect(rig.lines().length).toBe(before.lines);
      expect(rig.controller.read().flow?.typed).toBe(before.flow?.typed);
      expect(rig.controller.read().flow?.steps).toBe(before.flow?.steps);
      expect(rig.controller.read().typed).toBe(before.typed);
    }
    drawn(rig);
  }
}

/** Ways that chance may miss: each is played first, and then goes on with nothing. */
const slowly = (...all: readonly string[]): readonly Press[] => all.map((one) => ({ bytes: one, seconds: 30 }));
const examples: [number, 'right' | 'left', number, readonly Press[]][] = [
  // A correction of the stop; a check out of limits, its pieces cleared one by one and taken back.
  [1, 'right', 0, slowly('/211', '61.2\r', '1', '\r', '3.2\r', '/164', '1\r', '1', '-', '/163', '1', 'r2', '1\r', '1')],
  // Everything made, out and fewer back, and on to the end.
  [1, 'left', 14, slowly('\r', '\r', '2\r', '2', '\r', '\r', 'y', '\r', '\r')],
  [
    0,
    'right',
    8,
    slowly('b', '\r', '\r', 't', '\r', '\r', '\r', '\r', 'r1', '1', '-', '*', '*', '/62', '\x1b[18~', '\x1b[18~'),
  ],
  // One scrapped after its count and two in hand: one more than the spare.
  [0, 'right', 3, slowly('r2', '1', 'r1', '1', 'r1', '1', '\r')],
  [0, 'right', 60, []],
];
const wanted = [
  ...['PointDone', 'LoadCounted', 'TakenBack', 'PieceRejected', 'CountedScrapped', 'Checked', 'PiecesSuspected'],
  ...['SuspectsSettled', 'TargetCorrected', 'SentAway', 'CameBack', 'Paused', 'Resumed', 'Bumped', 'ToolChanged'],
  ...['card setup', 'card zero', 'card tool', 'card speed', 'card check', 'card away', 'card shortage', 'card variant'],
  'card parting',
];

it('any bytes keep counts, cards and place: one press is one load at most, and what stands is what the journal says', async () => {
  const seen = new Set<string>();
  await fc.assert(
    fc.asyncProperty(
      fc.nat(plans.length - 1),
      fc.constantFrom('right' as const, 'left' as const),
      fc.nat(60),
      presses,
      async (which, hand, first, sequence) => {
        const plan = plans[which] ?? samplePlan();
        const rig = await makeRig(plan, { hand });
        await play(rig, [...Array.from({ length: first }, (): Press => ({ bytes: '\r', seconds: 40 })), ...sequence]);
        expect(foldJournal(rig.lines())).toEqual(rig.batch());
        expect(unsoundCell(rig.batch())).toBeNull();
        let counted_ms = Number.NEGATIVE_INFINITY;
        for (const { before, line, after } of steps(rig.lines())) {
          for (const event of line.events) seen.add(event.kind);
          for (const card of after.cards) seen.add(`card ${card.kind}`);
          if (before.kind === 'none') continue;
          const isByKey = isCount(line) && before.cells !== after.cells;
          const wasRejected = line.events.some((event) => event.kind === 'PieceRejected') || hasScrap(line);
          if (!isByKey || wasRejected) continue;
          // No count while a card stood before it, nor outside of work.
          expect(before.cards).toEqual([]);
          expect([before.kind, before.presence]).toEqual(['open', 'here']);
          // One load at most, and never two within the guard.
          const most = Math.max(...plan.operations.map((operation) => operation.loadSize));
          expect(through(after) - through(before)).toBeLessThanOrEqual(most);
          expect(line.at.mono_ms - counted_ms).toBeGreaterThanOrEqual(1200);
          counted_ms = line.at.mono_ms;
        }
      },
    ),
    { numRuns: 60, examples },
  );
  // The keys came everywhere: else this would prove little. Chance is helped by the examples.
  expect(wanted.filter((one) => !seen.has(one))).toEqual([]);
}, 120_000);

const hasScrap = ({ events }: BatchLine): boolean =>
  events.some((event) => event.kind === 'LoadCounted' && event.scrap.length > 0);
