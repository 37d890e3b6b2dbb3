import { asNumber, numberAfter, numberBefore } from '../advice.ts';
import { hole, once } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

const MAKES_HOLE: ReadonlySet<string> = new Set(['drill', 'ream']);
const NEEDS_HOLE: ReadonlySet<string> = new Set(['tap', 'ream', 'counterbore', 'countersink']);

/** A tool that comes before the hole that it needs. */
export const beforeItsHole: Rule = {
  code: 'before-its-hole',
  severity: 'stop',
  catches: 'A tap, reamer, counterbore or countersink that comes to a place before the hole is drilled.',
  example: 'operation 60: "holes 1" is tapped before it is drilled in operation 70',
  find: (ask) =>
    once(
      ask.visits.flatMap((visit): readonly Hit[] => {
        const { kind } = visit.cut;
        if (!NEEDS_HOLE.has(kind)) return [];
        const { before, after } = hole(ask, visit);
        if (
          before.some((other) => MAKES_HOLE.has(other.cut.kind) && other.cut.kind !== (kind === 'ream' ? 'ream' : ''))
        )
          return [];
        const later = after.find((other) => other.cut.kind === 'drill');
        const base = { operation: visit.operation.resolved.number, path: visit.path };
        if (later !== undefined) {
          const message = `"${visit.point.name}": ${kind} comes before the hole is drilled in operation ${later.operation.resolved.number}`;
          return [
            {
              ...base,
              message,
              tryThis: `put it after operation ${later.operation.resolved.number}${asNumber(numberAfter(ask, later.operation))}`,
            },
          ];
        }
        if (kind === 'countersink' || kind === 'counterbore') return [];
        const message = `"${visit.point.name}" is to be ${kind === 'tap' ? 'tapped' : 'reamed'}, but no operation drills it`;
        return [
          {
            ...base,
            message,
            tryThis: `add the drilling before it${asNumber(numberBefore(ask, visit.operation))}, at the same points`,
          },
        ];
      }),
    ),
};
