/** How many pieces are held at once, and where they lie. */
import { balancedLoads, fullLoads, piecesInJaws } from '../../shop/loads.ts';
import { asMm, type Mm } from '../../shop/quantities.ts';
import type { ResolvedSetup } from '../resolved.ts';
import type { PlanMachine } from '../schema/machines.ts';
import type { PlanSetup } from '../schema/setups.ts';
import { addProblem, noteComputed, operationPath, type Resolving, take } from './context.ts';
import type { LyingSize } from './frames.ts';
import type { OperationWork } from './work.ts';

/**
 * Pieces in a full load of an operation: as stated by it or its setup, the places of the fixture, or as many as the jaws take
 * when it is done in loads; shared out over as few loads as possible, as equal as can be.
 *
 * @param pieces that go through the operation
 */
export function loadSizeOf(resolving: Resolving, work: OperationWork, pieces: number): number {
  const places = work.setup?.places?.length;
  const stated = work.plan['per load'] ?? work.setup?.['per load'] ?? places;
  if (stated !== undefined) return withinPlaces(resolving, work, stated, places);
  if (work.plan['in loads'] !== true) return 1;
  const fit = take(resolving, operationPath(work.index), rowsInJaws(work.setup, work.machine, work.size));
  if (fit === undefined || fit.pieces < 1) return 1;
  const balanced = take(resolving, operationPath(work.index), balancedLoads(pieces, fit.pieces));
  if (balanced === undefined) return 1;
  const least = Math.max(...balanced.groups.map((group) => group.pieces));
  const rows = rowsFor(least, fit);
  const size = rows.along * rows.across;
  const loads = take(resolving, operationPath(work.index), fullLoads(pieces, size));
  const words = (loads?.groups ?? []).map((group) => `${group.loads} of ${group.pieces}`).join(' and ');
  const grid = rows.along > 1 && rows.across > 1 ? `, ${rows.across} rows of ${rows.along}` : '';
  noteComputed(
    resolving,
    work.plan.number,
    'loads',
    `${loads?.loads ?? 1} loads: ${words}${grid}`,
    `${pieces} pieces, ${fit.pieces} fit the jaws`,
  );
  return size;
}

/** A load of more pieces than there are places has pieces that lie nowhere. */
function withinPlaces(resolving: Resolving, work: OperationWork, stated: number, places: number | undefined): number {
  if (places === undefined || stated <= places) return stated;
  const own = work.plan['per load'] !== undefined;
  const path = own ? operationPath(work.index, 'per load') : ['setups', work.plan.setup ?? '', 'per load'];
  addProblem(resolving, path, {
    found: `${stated} pieces in a load`,
    wanted: `at most the ${places} places of the setup`,
    message: `operation ${work.plan.number} holds ${stated} pieces at once, and its setup has ${places} places`,
    tryThis: `hold ${places} at once, or give the other places under "places"`,
  });
  return places;
}

/** Pieces along the jaws in a row, rows from jaw to jaw, and pieces in all. */
interface JawRows {
  readonly along: number;
  readonly across: number;
  readonly pieces: number;
}

/** Do the jaws grip along Y (fixed jaw at the rear or in front), so that a row along them lies along X? */
const gripsAlongY = (machine: Pick<PlanMachine, 'vice'> | undefined): boolean =>
  !['left', 'right'].includes(machine?.vice?.['fixed jaw'] ?? 'rear');

/** How pieces lie in the jaws: a row along them, a row from jaw to jaw, or both. */
function rowWays(setup: PlanSetup | undefined, machine: PlanMachine | undefined) {
  const row = setup?.row ?? 'front to back';
  const alongIsX = gripsAlongY(machine);
  return {
    along: row === 'both ways' || (row === 'side by side') === alongIsX,
    across: row === 'both ways' || (row === 'front to back') === alongIsX,
  };
}

/** The rows that the vice of an operation takes, by the way the pieces lie; no pieces without a vice. */
function rowsInJaws(setup: PlanSetup | undefined, machine: PlanMachine | undefined, size: Pick<LyingSize, 'x' | 'y'>) {
  const vice = machine?.vice;
  if (vice === undefined) return { ok: true as const, value: { along: 0, across: 0, pieces: 0 } };
  const alongIsX = gripsAlongY(machine);
  const fit = piecesInJaws({
    opening: vice.opening,
    jawWidth: vice['jaw width'],
    pieceAcross: alongIsX ? size.y : size.x,
    pieceAlong: alongIsX ? size.x : size.y,
  });
  if (!fit.ok) return fit;
  const ways = rowWays(setup, machine);
  // A single column may stand out beyond the ends of the jaws; from jaw to jaw it must fit.
  const along = ways.along ? Math.max(1, fit.value.along) : 1;
  const across = ways.across ? fit.value.across : Math.min(1, fit.value.across);
  return { ok: true as const, value: { along, across, pieces: along * across } };
}

/**
 * The rows in which a load lies: no more places than it must have, and as many of them along the jaws as may be, for a jaw
 * evens out no two pieces behind each other. Every row is full: a jaw does not grip a column that is shorter than the next.
 *
 * Example: 6 and 5 pieces where 3 rows of 2 fit: 3 rows of 2. 4 pieces: 2 rows of 2.
 */
function rowsFor(pieces: number, fit: Pick<JawRows, 'along' | 'across'>): Pick<JawRows, 'along' | 'across'> {
  const choices = Array.from({ length: Math.max(1, Math.min(fit.along, pieces)) }, (_, at) => {
    const along = at + 1;
    return { along, across: Math.ceil(pieces / along) };
  });
  const sound = choices.filter((one) => one.across <= Math.max(1, fit.across));
  const size = (one: Pick<JawRows, 'along' | 'across'>) => one.along * one.across;
  const least = Math.min(...sound.map(size));
  return sound.findLast((one) => size(one) === least) ?? choices.at(-1) ?? { along: 1, across: pieces };
}

/** How many pieces the vice of an operation takes, by the way they lie; undefined without a vice. */
export function fitInJaws(resolving: Resolving, work: OperationWork): number | undefined {
  if (work.machine?.vice === undefined) return undefined;
  return take(resolving, operationPath(work.index), rowsInJaws(work.setup, work.machine, work.size))?.pieces;
}

/** Sizes by which a load is laid out: of the piece as it comes (blanks lie against each other), and as it leaves the plan. */
interface LaidSize {
  readonly now: Pick<LyingSize, 'x' | 'y'>;
  readonly finished: Pick<LyingSize, 'x' | 'y'>;
}

/**
 * The places of a load: as stated, or row behind row away from the fixed jaw, each row along the jaws away from the stop.
 *
 * Example: six plates of 60 x 30 both ways in jaws 125 wide that open 100, fixed jaw at the rear, stop on the left:
 * X 0 and 60, Y 0, -30 and -60.
 */
export function placesOf(
  setup: PlanSetup,
  machine: PlanMachine | undefined,
  size: LaidSize,
  loadSize: number,
): ResolvedSetup['places'] {
  if (setup.places !== undefined)
    return setup.places.map((place) => ({ name: place.name, dx: place.x ?? asMm(0), dy: place.y ?? asMm(0) }));
  const fit = rowsInJaws(setup, machine, size.finished);
  const ways = rowWays(setup, machine);
  const rows =
    ways.along && ways.across && fit.ok ? rowsFor(loadSize, fit.value) : { along: ways.along ? loadSize : 1 };
  const jaw = machine?.vice?.['fixed jaw'] ?? 'rear';
  const stepX = jaw === 'right' || (jaw !== 'left' && setup.stop?.side === 'right') ? -size.now.x : size.now.x;
  const stepY = jaw === 'front' ? size.now.y : -size.now.y;
  const alongIsX = gripsAlongY(machine);
  return Array.from({ length: loadSize }, (_, at) => {
    const along = at % rows.along;
    const across = Math.floor(at / rows.along);
    return {
      name: String(at + 1),
      dx: asMm((alongIsX ? along : across) * stepX + 0),
      dy: asMm((alongIsX ? across : along) * stepY + 0),
    };
  });
}

/**
 * Length of the part when it comes to each setup for the first time (the blank's, or what the last end milled before left),
 * and when all is done. Setups that no operation uses are left out.
 */
export function lengthsAtSetups(works: readonly OperationWork[], blank: Mm) {
  const at = new Map<string, Mm>();
  let now = blank;
  for (const { plan, setup } of works) {
    if (plan.setup !== undefined && setup !== undefined && !at.has(plan.setup)) at.set(plan.setup, now);
    if (plan.kind === 'mill to length' && plan.length !== undefined) now = plan.length;
  }
  return { at: at as ReadonlyMap<string, Mm>, last: now };
}
