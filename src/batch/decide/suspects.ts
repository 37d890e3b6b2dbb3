/** Suspect pieces settled by word, any part of a range: measured and good, taken at the owner's word, or scrapped. */
import type { CommandOf } from '../commands.ts';
import { cellAt } from '../flow.ts';
import type { Instant } from '../instant.ts';
import { cellKey } from '../lanes.ts';
import { placesBehind } from '../questions/suspects.ts';
import type { Batch, Suspects } from '../state.ts';
import { atHand, type Decision, events, formatCell, formatPieces, refused, textProblem } from './decision.ts';
import { ifSound } from './rejecting.ts';

/** Suspect pieces are cleared: each measured, or taken on the owner's word. */
export function decideClearSuspects(batch: Batch, command: CommandOf<'clearSuspects'>): Decision {
  return atHand(batch, (hand) => {
    const { check, from, to, how, reason } = command;
    const found = suspectsNamed(batch, command, command.at ?? hand.named);
    const problem = textProblem(reason, 'the reason') ?? found.problem;
    if (problem !== null || found.range === null) return refused(problem ?? notSuspect);
    const { operation, lane } = found.range;
    return events({ kind: 'SuspectsSettled', operation, lane, check, from, to, how, scrapAt: null, reason });
  });
}

/** Suspect pieces are scrap, wherever they lie by now. */
export function decideScrapSuspects(batch: Batch, command: CommandOf<'scrapSuspects'>, at: Instant): Decision {
  return atHand(batch, () => {
    const { check, from, to, lieBehind, reason } = command;
    const found = suspectsNamed(batch, command, command.at);
    const problem = textProblem(reason, 'the reason') ?? found.problem;
    if (problem !== null || found.range === null) return refused(problem ?? notSuspect);
    const { operation, lane } = found.range;
    const there = batch.lanes.positions.get(cellKey(lieBehind.operation, lieBehind.lane));
    const place = placesBehind(batch, found.range).find((one) => one.at === there);
    if (there === undefined || place === undefined) {
      return refused(`no good piece of operation ${operation} lies behind operation ${lieBehind.operation}`);
    }
    const pieces = to - from + 1;
    if (pieces > place.pieces) {
      return refused(`behind ${formatCell(batch, there)} lie ${formatPieces(place.pieces)}, not ${pieces}`);
    }
    const named = { operation: cellAt(batch, there).operation, lane: cellAt(batch, there).lane };
    return ifSound(batch, at, {
      kind: 'SuspectsSettled',
      operation,
      lane,
      check,
      from,
      to,
      how: 'scrapped',
      scrapAt: named,
      reason,
    });
  });
}

const notSuspect = 'those pieces are not suspect';

type Named = { readonly check: string; readonly from: number; readonly to: number };

/** The range in which the pieces lie, in that cell first; or why there is none. */
function suspectsNamed(
  batch: Batch,
  { check, from, to }: Named,
  where: { readonly operation: number; readonly lane: string },
): { readonly range: Suspects | null; readonly problem: string | null } {
  if (from > to) return { range: null, problem: `${from} to ${to} is no range of pieces` };
  const fits = batch.suspects.filter((one) => one.check === check && one.from <= from && to <= one.to);
  const here = fits.find((one) => one.operation === where.operation && one.lane === where.lane) ?? fits[0];
  return here === undefined ? { range: null, problem: notSuspect } : { range: here, problem: null };
}
