/**
 * On which side of its ground a finder, pin or block stands. Only air can be stood in: beside the stop or the fixed jaw,
 * which are touched before the part lies there, that is the side of the part; at a face of the part itself it is the outside.
 * Taken on the wrong side, zero is out by a whole tip. Where neither setup nor words tell which it is, the plan must say.
 * Source: geometry.
 */
import type { PlanMachine } from '../schema/machines.ts';
import type { PlanSetup } from '../schema/setups.ts';

export type End = 'left' | 'right' | 'front' | 'rear';

export const OPPOSITE: Readonly<Record<End, End>> = { left: 'right', right: 'left', front: 'rear', rear: 'front' };

/**
 * What the ground at an end is by the setup: its own stop or fixed jaw; the end that the moving jaw presses, or that lies
 * away from the stop, where only the part is; or nothing that the setup tells of.
 */
export type GroundKind = 'own' | 'moving jaw' | 'away from the stop' | 'untold';

/**
 * What stands at an end of the part in a setup.
 *
 * Example: vice with its fixed jaw at the rear: the rear is its own ground, the front is that of the moving jaw.
 */
export function groundAt(setup: PlanSetup, machine: PlanMachine | undefined, axis: 'x' | 'y', end: End): GroundKind {
  const inVice = setup.hold === 'vice' || setup.hold === 'two vices';
  const jaw = machine?.vice?.['fixed jaw'] ?? 'rear';
  const jawHere = axis === 'x' ? jaw === 'left' || jaw === 'right' : jaw === 'front' || jaw === 'rear';
  if (inVice && jawHere) return end === jaw ? 'own' : 'moving jaw';
  if (axis === 'x' && setup.stop !== undefined) return end === setup.stop.side ? 'own' : 'away from the stop';
  return 'untold';
}

const PART_WORDS = /\b(?:part|piece|workpiece|work|blank|bar|end|edge)\b/iu;
const LOCATOR_WORDS =
  /\b(?:stop|pin|dowel|peg|stud|button|fence|jaw|block|fixture|plate|angle|parallel|bush|nest|square|vice|finger)s?\b/iu;

/** What the words of the plan say is touched; both or neither leaves it open. */
function wordsSay(against: string): 'part' | 'locator' | 'open' {
  const [part, locator] = [PART_WORDS.test(against), LOCATOR_WORDS.test(against)];
  if (part === locator) return 'open';
  return part ? 'part' : 'locator';
}

/** What the side is asked with. */
export interface FinderAsk {
  readonly ground: GroundKind;
  /** End of the part that the ground touches. */
  readonly end: End;
  readonly against: string;
  readonly stated: End | undefined;
}

/** The side on which the finder stands, or why none can be taken. */
export type FinderSide =
  | { readonly kind: 'side'; readonly side: End }
  | { readonly kind: 'inside the part'; readonly side: End; readonly outside: End }
  | { readonly kind: 'untold' };

/**
 * The side of the ground on which the finder stands, seen from the ground.
 *
 * Example: "front of the part" with the fixed jaw at the rear: `front`; the fixed jaw itself: `front` too, for the part lies
 * in front of it; "left end" of a part on a plate: `left`; on a plate against "it": untold.
 */
export function finderSide({ ground, end, against, stated }: FinderAsk): FinderSide {
  const [outside, inside] = [end, OPPOSITE[end]];
  const says = wordsSay(against);
  if (stated !== undefined) {
    const onPart =
      ground === 'moving jaw' || says === 'part' || (ground === 'away from the stop' && says !== 'locator');
    return stated === inside && onPart
      ? { kind: 'inside the part', side: inside, outside }
      : { kind: 'side', side: stated };
  }
  if (ground === 'moving jaw') return { kind: 'side', side: outside };
  if (ground === 'away from the stop') return says === 'locator' ? { kind: 'untold' } : { kind: 'side', side: outside };
  if (ground === 'own') return says === 'part' ? { kind: 'untold' } : { kind: 'side', side: inside };
  if (says === 'open') return { kind: 'untold' };
  return { kind: 'side', side: says === 'part' ? outside : inside };
}
