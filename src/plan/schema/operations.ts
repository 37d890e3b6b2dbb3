/** The operations of a plan. */
import * as z from 'zod';
import { parseLength } from '../../shop/parse-length.ts';
import type { Mm } from '../../shop/quantities.ts';
import { POSITIVE_LENGTH } from '../../shop/ranges.ts';
import { answer, type Result } from '../../shop/refusal.ts';
import { operationKinds } from '../operation-kinds.ts';
import {
  count,
  cuttingSpeed,
  duration,
  type Fields,
  flag,
  form,
  listOf,
  oneOf,
  oneOrMore,
  resultForm,
  section,
  sentence,
  spindleSpeed,
  words,
} from './fields.ts';

/** How deep a tool goes, as the plan states it. */
export type PlanDepth =
  | { readonly kind: 'through' }
  | { readonly kind: 'for the tap' }
  | { readonly kind: 'length'; readonly mm: Mm };

/** How deep: through, for the tap that follows in the same hole, or a length. */
const depthField = (f: Fields) =>
  resultForm(
    'How deep: the full diameter of a drill, the floor of a cut. "through" adds the point of the drill, the lead of the tap or the bevel of the reamer; "for the tap" is worked out from the tapping that follows in the same points.',
    'a length, "through" or "for the tap"',
    (text): Result<PlanDepth> => {
      const tidy = text.trim().toLowerCase();
      if (tidy === 'through') return answer({ kind: 'through' });
      if (tidy === 'for the tap') return answer({ kind: 'for the tap' });
      const length = parseLength(text, f.unit, { ...POSITIVE_LENGTH, what: 'depth' });
      return length.ok ? answer({ kind: 'length' as const, mm: length.value }) : length;
    },
  );

const pointUse = (f: Fields) =>
  z.union([
    words('Name of a point or arrangement, or of one point of it such as "corners 2".').transform((at) => ({ at })),
    section('A point with its own depth or diameter.', {
      at: words('Name of a point or arrangement.'),
      depth: depthField(f).optional(),
      top: f.diameter('Diameter wanted at the top of the cone.').optional(),
    }),
  ]);

/** What one tool does. */
const cutShape = (f: Fields) => ({
  tool: words('Key of the tool.').optional(),
  points: oneOrMore('The points, in working order.', pointUse(f), 200).optional(),
  lines: oneOrMore('Names of the line cuts.', words('A name.'), 100).optional(),
  depth: depthField(f).optional(),
  top: f.diameter('Diameter wanted at the top of a cone: spot, chamfer, countersink.').optional(),
  leg: f
    .size('Chamfer along a line: what it takes along the top face.', 'from the depth, how far it goes down the side')
    .optional(),
  thread: words('Thread to cut, such as M5, M10x1 or 8-32 UNC.').optional(),
  'full thread': f.size('Depth of full thread in a blind hole.', 'through').optional(),
  floor: f.size('Least floor that a blind hole or cut must leave.').optional(),
  position: f.allowance('How far a hole may stand from its true place, either way.').optional(),
  screw: words('Screw whose head or shank goes in: "M5 countersunk", "M6 cap head", "M5 close".').optional(),
  speed: spindleSpeed('Spindle speed, stated.', 'computed from the cutting speed').optional(),
  'cutting speed': cuttingSpeed('Cutting speed.', 'that of the tool, of the plan, or from the table').optional(),
  feed: f.feedPerTurn('Feed for one turn.', 'from the table for the diameter').optional(),
  peck: f.size('Draw back to clear chips every so deep.', 'every 1 to 3 diameters when the hole is deep').optional(),
  'by hand': flag('Is the tap turned by hand?', 'yes at a bench or where the spindle never reverses').optional(),
});

const cutSection = (f: Fields) =>
  section('What one tool does before unclamping.', {
    kind: oneOf('What this tool does.', operationKinds, 'the kind of the operation').optional(),
    ...cutShape(f),
  });
export type PlanCut = z.output<ReturnType<typeof cutSection>>;

/** When a check is due: first-off, every N pieces or loads, last. */
export type CheckMoment =
  | { readonly kind: 'first-off' }
  | { readonly kind: 'last' }
  | { readonly kind: 'every'; readonly count: number; readonly of: 'pieces' | 'loads' };

const momentField = form(
  'When it is due.',
  'first-off, last, every 5 or every 5 loads',
  (text): CheckMoment | undefined => {
    const tidy = text.toLowerCase();
    if (tidy === 'first-off') return { kind: 'first-off' };
    if (tidy === 'last') return { kind: 'last' };
    const match = /^every (\d{1,4})(?: (pieces?|loads?))?$/u.exec(tidy);
    if (match === null || Number(match[1]) < 1) return undefined;
    return { kind: 'every', count: Number(match[1]), of: (match[2] ?? '').startsWith('load') ? 'loads' : 'pieces' };
  },
);

const checkSection = (f: Fields) =>
  section('One check: a nominal size with limits, or a question answered yes or no.', {
    title: words('What is checked.'),
    nominal: f.allowance('Wanted size.').optional(),
    limits: listOf('Lowest and highest size.', f.length('A limit.'), 2).optional(),
    zone: words('Tolerance zone of the size by ISO 286, such as H7, F8 or p6, instead of limits.').optional(),
    within: f.allowance('Allowed difference either way.', 'the general tolerance of the plan').optional(),
    ask: words('Question whose answer must be yes, for a plug, a thread gauge or the mating part.').optional(),
    gauge: words('What it is measured with.').optional(),
    when: oneOrMore('When it is due.', momentField, 3),
  });
export type PlanCheck = z.output<ReturnType<typeof checkSection>>;

export const operationSection = (f: Fields) =>
  section('One operation.', {
    number: count('Its number, 10, 20, …; it never changes and never comes back.', 1, 9999),
    title: words('What is done.'),
    kind: oneOf('What kind of work it is.', operationKinds),
    setup: words('Key of the setup.').optional(),
    machine: words('Key of the machine, where there is no setup.', 'the machine of the setup').optional(),
    ...cutShape(f),
    cuts: listOf(
      'Tool after tool before unclamping, counted once, instead of tool and points.',
      cutSection(f),
      20,
    ).optional(),
    length: f.size('Saw: length of the blank. Mill to length: length left after the cut.').optional(),
    width: f.size('Mill edge: width left after the cut, where there are no lines.').optional(),
    variants: oneOrMore('Variants that it is done to.', words('Key of a variant.'), 20).optional(),
    'per load': count('Pieces held at once.', 1, 100, 'from the setup').optional(),
    'in loads': flag('Is it done in loads, as many as fit?', 'no').optional(),
    counting: oneOf(
      'What one press of the count key means.',
      ['point', 'piece', 'load'],
      'point, load or piece',
    ).optional(),
    'located by': oneOf('Pillar drill: what locates the tool.', [
      'follows the hole',
      'punch mark',
      'jig',
      'fence and stop',
    ]).optional(),
    'stop length': f.size('What the stop is set to.', 'the length, at a saw').optional(),
    radius: f.size('Round corners: their radius.').optional(),
    checks: listOf('What is checked.', checkSection(f), 20).optional(),
    notes: oneOrMore('What the person at the machine should know.', sentence('A note.'), 10).optional(),
    cautions: oneOrMore('Keys into the table of cautions, shown before the usual ones.', words('A key.'), 5).optional(),
    estimate: section('Times, where you know them.', {
      setup: duration('Setting up.', 'computed').optional(),
      piece: duration('One piece.', 'from two or more past batches of the same work, else computed').optional(),
    }).optional(),
    away: section('Work that goes out.', {
      to: words('Where it goes.'),
      days: count('Calendar days until it is back, as you were told.', 1, 365, 'not in any finish').optional(),
      changes: oneOrMore(
        'What changes on the part: holes plugged, a size that grows.',
        sentence('A change.'),
        10,
      ).optional(),
    }).optional(),
  });
export type PlanOperation = z.output<ReturnType<typeof operationSection>>;
