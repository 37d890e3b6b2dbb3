/**
 * What stands biggest and second at every moment: what the hands need then. The list is the program's own account of it; a
 * moment that is not in it fails, so that none comes without somebody having thought of its hands.
 */
import { describe, expect, it } from 'vitest';
import type { CautionRow } from '../../../src/plan/cautions.ts';
import { CAUTION_TABLE } from '../../../src/plan/cautions-table.ts';
import { panelOf } from './draw-frame.ts';
import { everyKindPlan } from './every-kind-plan.ts';
import { momentsOf, type Shown } from './moments.ts';
import { rareMoments } from './rare-moments.ts';

type Expected = {
  /** Main readings, as label and text. */
  readonly biggest: readonly string[];
  /** Second ones. */
  readonly second?: readonly string[];
  /** What the headline begins with. */
  readonly headline?: string;
};

/** Moments by name, the first that fits; numbers are those of the plan with one of everything. */
const expected: readonly (readonly [RegExp, Expected])[] = [
  [/^looking (at|ahead)/, { biggest: ['LOOKING'], headline: 'LOOKING AT' }],
  [/^(work at 10, stop 0|saving|after a failed check)$/, { biggest: ['STOP 61.00'], headline: 'SET THE STOP' }],
  [/^after a correction of the stop/, { biggest: ['STOP 60.80'], second: ['COUNT 0'], headline: 'SET THE STOP' }],
  [/^work after its first-off/, { biggest: ['1'], second: ['STOP 61.00', '3 MORE'] }],
  [/^check, a value over/, { biggest: ['OVER 3.20'] }],
  [/^check, a value within/, { biggest: ['WITHIN 3.01'] }],
  [/^check .* at 10$/, { biggest: ['CHECK 3.00'] }],
  [/^check .* at 50/, { biggest: ['CHECK'] }],
  [/^setup at (20|40)$/, { biggest: [], second: ['PARALLELS 20.00'], headline: 'SET UP' }],
  [/^setup at 60/, { biggest: [], second: ['BY HAND'], headline: 'SET UP' }],
  [/^zero x at 20/, { biggest: ['X +5.00'], headline: 'SET X READOUT' }],
  [/^zero y at 20/, { biggest: ['Y -5.00'], headline: 'SET Y READOUT' }],
  [/^zero x at 40/, { biggest: ['X 2 + 0'], headline: 'SET X DIAL' }],
  [/^zero y at 40/, { biggest: ['Y BELOW 2 + 0'], second: ['SCALE 0'], headline: 'SET Y DIAL' }],
  [/^bumped/, { biggest: ['X +5.00'], headline: 'BUMPED: SET X' }],
  [/^tool changed/, { biggest: ['X +5.00'], headline: 'TOOL CHANGED: SET X' }],
  [/^tool in at 20/, { biggest: ['END MILL 16.00'], headline: 'TOOL IN' }],
  [/^tool (in|restore) at 30/, { biggest: ['DRILL 4.20'] }],
  [/^tool in at (40|60)/, { biggest: ['COUNTERSINK 12.00'] }],
  [/^tool in at 50/, { biggest: ['TAP 5.00'] }],
  [/^speed at (20|40)/, { biggest: ['SPEED 450'], headline: 'SPEED' }],
  [/^speed at 30/, { biggest: ['SPEED 1200'], headline: 'SPEED   450' }],
  [/^speed at 50/, { biggest: ['SPEED 90'], headline: 'SPEED FOR THE TAP' }],
  [/^speed at 60/, { biggest: ['SPEED 200'] }],
  [
    // Counted by the load, in two passes: nobody winds to the last one first.
    /^work at 20/,
    { biggest: ['X 69.00'], second: ['Z -8.50'], headline: '↑ FEED Y AWAY FROM YOU   first of 2 passes' },
  ],
  [/^line cut pass by pass$/, { biggest: ['X 69.00'], second: ['Z -8.50'], headline: '↑ FEED Y AWAY FROM YOU' }],
  [/^line cut pass by pass, the last/, { biggest: ['X 68.50'], second: ['Z -8.50'] }],
  [/^work at 30, stop 0/, { biggest: ['X 10.00', 'Y -15.00'], second: ['Z -6.00'], headline: 'WIND TO' }],
  [/^work at 30, stop 1/, { biggest: ['X 20.00', 'Y -15.00'], second: ['Z -6.00'] }],
  [/^work at 30, stop 2/, { biggest: ['X 10.00', 'Y -46.00'] }],
  [/^work at 30, stop 3/, { biggest: ['X 20.00', 'Y -46.00'] }],
  [/^piece by piece at holes/, { biggest: ['0'], second: ['Z -6.00', '4 MORE'] }],
  [/^work at 40, stop 0/, { biggest: ['X 4 + 0', 'Y BELOW 6 + 0'], headline: 'WIND TO' }],
  [/^work at 40, stop 1/, { biggest: ['X 8 + 0', 'Y BELOW 6 + 0'] }],
  [/^work at 40, stop 2/, { biggest: ['X 12 + 0', 'Y BELOW 6 + 0'] }],
  [/^work at 50/, { biggest: ['X 10.00', 'Y -15.00'], second: ['Z -6.00'] }],
  [/^work at 60/, { biggest: ['Z -6.00'], second: ['TOP 10.00'], headline: 'SET THE DEPTH STOP' }],
  [/^depth stop that a piece has proved/, { biggest: ['1'], second: ['Z -6.00', '1 MORE'] }],
  [/^work at 70/, { biggest: ['TURNS 12'], second: ['COUNT 0'], headline: 'TURNS BY HAND' }],
  [/^work at 90/, { biggest: ['0'], second: ['2 MORE'], headline: 'DEBURR' }],
  [/^operation ended at \d+$/, { biggest: ['DONE 4'] }],
  [/^operation ended/, { biggest: ['DONE 2'] }],
  [/^parting/, { biggest: ['2 / 2'] }],
  [/^variant .* threaded/, { biggest: ['THREADED'], headline: 'FROM HERE' }],
  [/^variant .* clearance/, { biggest: ['CLEARANCE'], headline: 'FROM HERE' }],
  [/^away/, { biggest: ['OUT 2'] }],
  [/^batch ended/, { biggest: ['ALL DONE'] }],
  [/^suspects of an operation/, { biggest: ['SUSPECT 1'] }],
  [/^none waiting/, { biggest: ['TO COME 3'] }],
  [/^suspect at the end/, { biggest: ['SUSPECT'] }],
  [/^short of the order/, { biggest: ['SHORT 1'] }],
  [/^finished/, { biggest: ['GOOD 4'] }],
  [/^given up/, { biggest: ['GOOD 0'] }],
  [/^just counted/, { biggest: ['1'], headline: 'COUNTED' }],
  [/^paused/, { biggest: ['PAUSED'] }],
  [/^after a cut/, { biggest: ['GO ON'] }],
  [/^after a night$/, { biggest: ['PROVE ZERO'] }],
  [/^(the tray|after a night, the tray)/, { biggest: ['TRAY 0'] }],
];

const moments: readonly Shown[] = [...momentsOf(everyKindPlan), ...rareMoments()];
const named = ({ label, text }: { readonly label: string; readonly text: string }): string => `${label} ${text}`.trim();

describe('what the hands need is biggest', () => {
  it.each(moments.map((shot) => [shot.name, shot] as const))('%s', (name, shot) => {
    const wanted = expected.find(([pattern]) => pattern.test(name))?.[1];
    if (wanted === undefined) throw new Error(`nobody said what is biggest at "${name}"`);
    const { readings, headline } = panelOf(shot);
    expect(readings.filter((one) => one.rank === 'main').map(named)).toEqual(wanted.biggest);
    if (wanted.second !== undefined)
      expect(readings.filter((one) => one.rank === 'second').map(named)).toEqual(wanted.second);
    if (wanted.headline !== undefined) expect(headline?.text).toMatch(new RegExp(`^${wanted.headline}`));
  });

  it('every line of the list is of a moment that there is', () => {
    const unused = expected.filter(([pattern]) => !moments.some(({ name }) => pattern.test(name)));
    expect(unused.map(([pattern]) => pattern.source)).toEqual([]);
  });
});

const topics: readonly (readonly CautionRow[])[] = Object.values(CAUTION_TABLE);
const rows = topics.flat();
const rankOf = (text: string): number => {
  const concern = rows.find((row) => row.text === text)?.concerns;
  if (concern === undefined) throw new Error(`"${text}" is no caution of the table`);
  return ['injury', 'both', 'part'].indexOf(concern);
};

describe('cautions', () => {
  it.each(moments.map((shot) => [shot.name, shot] as const))('are at most three, injury first: %s', (_, shot) => {
    const { cautions } = panelOf(shot);
    expect(cautions.length).toBeLessThanOrEqual(3);
    expect(cautions.map(rankOf)).toEqual(cautions.map(rankOf).toSorted());
  });

  // When a caution matters: clamping before the table is fed, the handle before the spindle turns, hands before the tool.
  it.each([
    [/^setup at 20/, 'Vice bolted down and square'],
    [/^tool in at 20/, 'Isolate the power'],
    [/^tool in at 20/, 'Keep fluid off skin'],
    [/^speed at 20/, 'Take the vice handle off'],
    [/^speed at 60/, 'Power off before you move a belt'],
    [/^check first-off at 10/, 'Load, measure and unload only when the blade has stopped'],
    [/^check first-off at 50/, 'Spindle stopped, table wound clear'],
    [/^after a cut/, 'After a power cut: switch to off'],
    [/^after a night$/, 'Check tool, vice, stop and work'],
    [/^batch ended/, 'Brush or vacuum'],
  ])('at %s: %s', (name, words) => {
    const shot = moments.find((one) => name.test(one.name));
    if (shot === undefined) throw new Error('no such moment');
    expect(panelOf(shot).cautions.some((text) => text.startsWith(words))).toBe(true);
  });
});
