/** Names of places for banners and lines: operation, lane, setup, tool, as the plan calls them. */
import type { ResolvedOperation, ResolvedPlan, ResolvedSetup, ResolvedTool } from '../../plan/resolved.ts';

export function operationOf(plan: ResolvedPlan, number: number): ResolvedOperation | undefined {
  return plan.operations.find((one) => one.number === number);
}

export function toolOf(plan: ResolvedPlan, id: string | null): ResolvedTool | undefined {
  return plan.tools.find((one) => one.id === id);
}

/** A place of a load, from 1: as the plan calls it, else `piece 2`. */
export function placeCalled(setup: ResolvedSetup | undefined, place: number): string {
  const name = setup?.places[place - 1]?.name ?? '';
  return name === '' || name === String(place) ? `piece ${place}` : name;
}

/** The variant's word in capitals, so that kinds are not mixed; '' for the common lane of all. */
export function laneName(plan: ResolvedPlan, lane: string): string {
  const variant = plan.variants.find((one) => one.id === lane);
  return variant === undefined ? '' : variant.title.toUpperCase();
}

/** "Op 40 Drill tap holes   THREADED". */
export function placeName(plan: ResolvedPlan, number: number, lane: string): string {
  const title = operationOf(plan, number)?.title ?? '';
  const name = laneName(plan, lane);
  return `Op ${number} ${title}${name === '' ? '' : `   ${name}`}`;
}

/** The same place in fewer and fewer words, for a banner: number with the variant's word, then with its id, then alone. */
export function placeForms(plan: ResolvedPlan, number: number, lane: string): readonly string[] {
  const name = laneName(plan, lane);
  if (name === '') return [`Op ${number}`];
  return [
    ...new Set([`Op ${number} ${name}`, `Op ${number} ${lane.toUpperCase()}`, `${number} ${lane.toUpperCase()}`]),
  ];
}
