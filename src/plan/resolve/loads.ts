/** How many pieces are held at once, and where they lie. */
import { balancedLoads, piecesInJaws } from '../../shop/loads.ts';
import { asMm } from '../../shop/quantities.ts';
import type { ResolvedSetup } from '../resolved.ts';
import type { PlanMachine } from '../schema/machines.ts';
import type { PlanSetup } from '../schema/setups.ts';
import { noteComputed, operationPath, type Resolving, take } from './context.ts';
import type { OperationWork } from './work.ts';

/**
 * Pieces in a full load of an operation: as stated by it or its setup, the places of the fixture, or as many as the jaws take
 * when it is done in loads; shared out over as few loads as possible, as equal as can be.
 *
 * @param pieces that go through the operation
 */
export function loadSizeOf(resolving: Resolving, work: OperationWork, pieces: number): number {
  const stated = work.plan['per load'] ?? work.setup?.['per load'] ?? work.setup?.places?.length;
  if (stated !== undefined) return stated;
  if (work.plan['in loads'] !== true) return 1;
  const fit = fitInJaws(resolving, work);
  if (fit === undefined || fit < 1) return 1;
  const loads = take(resolving, operationPath(work.index), balancedLoads(pieces, fit));
  if (loads === undefined) return 1;
  const words = loads.groups.map((group) => `${group.loads} of ${group.pieces}`).join(' and ');
  noteComputed(
    resolving,
    work.plan.number,
    'loads',
    `${loads.loads} loads: ${words}`,
    `${pieces} pieces, ${fit} fit the jaws`,
  );
  return Math.max(...loads.groups.map((group) => group.pieces));
}

/** How many pieces the vice of an operation takes, by the way they lie; undefined without a vice. */
export function fitInJaws(resolving: Resolving, work: OperationWork): number | undefined {
  const vice = work.machine?.vice;
  if (vice === undefined) return undefined;
  const acrossIsY = (vice['fixed jaw'] ?? 'rear') === 'rear' || vice['fixed jaw'] === 'front';
  const fit = take(
    resolving,
    operationPath(work.index),
    piecesInJaws({
      opening: vice.opening,
      jawWidth: vice['jaw width'],
      pieceAcross: acrossIsY ? work.size.y : work.size.x,
      pieceAlong: acrossIsY ? work.size.x : work.size.y,
    }),
  );
  if (fit === undefined) return undefined;
  const row = work.setup?.row ?? 'front to back';
  const along = Math.max(1, fit.along);
  return row === 'front to back' ? fit.across : row === 'side by side' ? along : fit.across * along;
}

/** The places of a load: as stated, or in a row away from the fixed jaw, or along the jaws away from the stop. */
export function placesOf(
  setup: PlanSetup,
  machine: PlanMachine | undefined,
  size: { readonly x: number; readonly y: number },
  loadSize: number,
): ResolvedSetup['places'] {
  if (setup.places !== undefined)
    return setup.places.map((place) => ({ name: place.name, dx: place.x ?? asMm(0), dy: place.y ?? asMm(0) }));
  const stepX = setup.stop?.side === 'right' ? -size.x : size.x;
  const stepY = machine?.vice?.['fixed jaw'] === 'front' ? size.y : -size.y;
  const sideBySide = setup.row === 'side by side';
  return Array.from({ length: loadSize }, (_, at) => ({
    name: String(at + 1),
    dx: asMm(sideBySide ? at * stepX : 0),
    dy: asMm(sideBySide ? 0 : at * stepY + 0),
  }));
}
