/**
 * Line cuts over the pieces of a load. Each piece gets the passes that the first one gets, moved by the offset of its place.
 * Where they would run into one another on one line, through open ends (pieces against each other in a row), they are one
 * pass that goes across all of them: nobody stops at a joint and begins again.
 */
import { asMm, type Mm } from '../../shop/quantities.ts';
import type { ResolvedLoadPass } from '../resolved.ts';
import { type LineWork, linePasses } from './lines.ts';

/** Where a piece of a load lies, against the first. */
export interface Place {
  readonly name: string;
  readonly dx: Mm;
  readonly dy: Mm;
}

/** Offsets that differ by less than this are one. */
const HAIR_MM = 1e-6;

/**
 * The passes of a load in working order: all of the first place, with those that go on across others, then the next place.
 *
 * Example: three pieces of 30 mm front to back, an end milled with a cutter of 16 mm: one pass over 90 mm, places 1 to 3.
 * Two places 80 mm apart on a fixture, the same end of parts of 60 mm: two passes, one at X 68, one at X 148.
 */
export function passesOfLoad(works: readonly LineWork[], places: readonly Place[]): readonly ResolvedLoadPass[] {
  const runs = works.flatMap((work) => runsOf(work, places).map((run) => ({ work, run })));
  return runs
    .map((one, order) => ({ ...one, order, first: Math.min(...one.run.map(({ at }) => at)) }))
    .sort((a, b) => a.first - b.first || a.order - b.order)
    .flatMap(({ work, run }) => passesOfRun(work, run, places.length));
}

/** A piece of a run: its position in the load from 0, and its offsets along the line and across it. */
interface InRun {
  readonly at: number;
  readonly name: string;
  readonly along: number;
  readonly across: number;
}

/** The pieces of a load in runs: those of a run are cut in one go. */
function runsOf(work: LineWork, places: readonly Place[]): readonly (readonly InRun[])[] {
  const feedsX = work.line.along === 'x';
  const all = places.map(({ name, dx, dy }, at): InRun => {
    const [along, across] = feedsX ? [dx, dy] : [dy, dx];
    return { at, name, along, across };
  });
  const sorted = [...all].sort((a, b) =>
    Math.abs(a.across - b.across) > HAIR_MM ? a.across - b.across : a.along - b.along,
  );
  const runs: InRun[][] = [];
  for (const piece of sorted) {
    const run = runs.at(-1);
    const before = run?.at(-1);
    if (run !== undefined && before !== undefined && runsOn(work, before, piece)) run.push(piece);
    else runs.push([piece]);
  }
  return runs;
}

/** Do the passes of two neighbours on one line run into each other where both are open? */
function runsOn({ line, cutter, runOut }: LineWork, before: InRun, after: InRun): boolean {
  if (Math.abs(before.across - after.across) > HAIR_MM) return false;
  const [low, high] = line.from.at <= line.to.at ? [line.from, line.to] : [line.to, line.from];
  if (low.end === 'closed' || high.end === 'closed') return false;
  const gap = after.along + low.at - (before.along + high.at);
  return gap <= cutter + 2 * runOut + HAIR_MM;
}

function passesOfRun(work: LineWork, run: readonly InRun[], loadSize: number): readonly ResolvedLoadPass[] {
  const [first, last] = [run[0], run.at(-1)];
  if (first === undefined || last === undefined) return [];
  const { line } = work;
  const rises = line.from.at <= line.to.at;
  const moved = (end: LineWork['line']['from'], by: InRun) => ({ ...end, at: asMm(end.at + by.along) });
  const passes = linePasses({
    ...work,
    line: {
      ...line,
      wall: asMm(line.wall + first.across),
      from: moved(line.from, rises ? first : last),
      to: moved(line.to, rises ? last : first),
    },
  });
  const places = run.map(({ at }) => at + 1).sort((a, b) => a - b);
  const names = [...run].sort((a, b) => a.at - b.at).map(({ name }) => name);
  const which = names.length === 1 ? `${names[0]}: ` : names.length === loadSize ? '' : `${names.join(', ')}: `;
  return passes.map((pass) => ({ ...pass, name: `${which}${pass.name}`, places }));
}
