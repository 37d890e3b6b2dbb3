import { alongJaws } from '../../drawing.ts';
import { type CheckAsk, isFirstOfSetup, type OperationSeen } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** Offsets that differ by less than this are one row. */
const HAIR_MM = 1e-6;

/**
 * Pieces of a load that nothing carries. Parallels along the jaws lie under the outer edges of the load alone. Common
 * practice: work bears on two parallels, or on one that reaches under its middle; else it tips or is pushed down by the cut.
 */
export const loadBears: Rule = {
  code: 'load-bears',
  severity: 'stop',
  also: ['warn'],
  catches: 'A row from jaw to jaw on parallels along the jaws: they carry its outer edges, and nothing its middle.',
  example:
    'operation 30: 3 rows of 30 mm lie from jaw to jaw; the parallels along the jaws (6 mm thick) leave nothing under the middle one',
  find: (ask) =>
    ask.operations.filter(isFirstOfSetup).flatMap((first) =>
      judge(
        ask,
        ask.operations
          .filter((one) => one.resolved.setup === first.resolved.setup)
          .reduce((most, one) => (one.resolved.loadSize > most.resolved.loadSize ? one : most), first),
      ),
    ),
};

function judge(ask: CheckAsk, operation: OperationSeen): readonly Hit[] {
  const { setup, machine, resolved } = operation;
  if (setup === undefined || (setup.hold !== 'vice' && setup.hold !== 'two vices')) return [];
  const { parallels, outline } = setup;
  if (parallels === null || !alongJaws(parallels.where)) return [];
  const acrossIsY = !['left', 'right'].includes(machine?.vice?.fixedJaw ?? 'rear');
  const offsets = setup.places.slice(0, resolved.loadSize).map((place) => (acrossIsY ? place.dy : place.dx));
  const rows = offsets.filter((one, at) => offsets.findIndex((other) => Math.abs(other - one) < HAIR_MM) === at).length;
  const across = acrossIsY ? outline.y1 - outline.y0 : outline.x1 - outline.x0;
  const carried = parallels.thickness >= across / 2;
  if (rows < 2 || (rows === 2 && carried)) return [];
  const lie = `${rows} rows of ${ask.show(across)} lie from jaw to jaw`;
  const along = `parallels along the jaws (${ask.show(parallels.thickness)} thick)`;
  return [
    {
      operation: resolved.number,
      path: ['setups', setup.id, 'parallels'],
      severity: rows === 2 || parallels.where === null ? 'warn' : 'stop',
      message:
        rows === 2
          ? `${lie}; the ${along} carry each at its outer edge alone: it tips under the cut`
          : `${lie}; the ${along} leave nothing under the middle${rows === 3 ? ' one' : ' ones'}`,
      tryThis:
        'stand them across from jaw to jaw, shorter than the rows together ("where: across under both ends"); or lay the load on one block, or on the bed of the vice',
    },
  ];
}
