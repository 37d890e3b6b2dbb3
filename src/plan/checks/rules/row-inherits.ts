import { type CheckAsk, isFirstOfSetup, type OperationSeen, once } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';
import { sizeWords } from '../size-words.ts';

/** Pieces that stand on one another's width. */
export const rowInherits: Rule = {
  code: 'row-inherits',
  severity: 'note',
  catches:
    'Holes in a row of pieces that press on one another from jaw to jaw: each piece takes in the size of those before it, and its tolerance.',
  example:
    'operation 60: 2 pieces stand one behind the other: Y of all but the first takes in the width of those before it, 30 mm +-0.2 mm each',
  find: (ask) => once(ask.operations.filter(isFirstOfSetup).flatMap((operation) => judge(ask, operation))),
};

function judge(ask: CheckAsk, { setup, machine, resolved, work }: OperationSeen): readonly Hit[] {
  if (setup?.hold !== 'vice' || ['on edge', 'on end'].includes(work.setup?.lies ?? '')) return [];
  const drilled = ask.operations.filter(
    (one) => one.resolved.setup === resolved.setup && one.cuts.some(({ resolved: cut }) => cut.points.length > 0),
  );
  const most = Math.max(0, ...drilled.map((one) => one.resolved.loadSize));
  const alongX = !['left', 'right'].includes(machine?.vice?.fixedJaw ?? 'rear');
  const places = setup.places.slice(0, most);
  const rows = new Set(places.map((place) => (alongX ? place.dy : place.dx))).size;
  if (rows < 2) return [];
  const axis = alongX ? 'y' : 'x';
  const [what = '', size = ''] = sizeWords(ask, axis).split(/, (.*)/s);
  return [
    {
      operation: drilled[0]?.resolved.number ?? resolved.number,
      path: ['setups', resolved.setup ?? ''],
      message: `${rows} pieces stand one behind the other: ${axis.toUpperCase()} of all but the first takes in the ${what} of those before it, ${size} each`,
      tryThis: `where that is too much, hold one row ("per load: ${Math.ceil(most / rows)}"); blanks wider than the part shift the holes by what is over`,
    },
  ];
}
