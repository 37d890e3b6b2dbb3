/**
 * From a setup back to the part: where a place under the spindle lies on the part, and which way down goes into it. The part
 * is measured from the left front corner of its top face: U to the right, V away, and the depth below that face.
 */
import type { Position } from '../../shop/patterns.ts';
import type { CheckAsk, OperationSeen } from './ask.ts';
import type { Place3 } from './hole-body.ts';

/** One way in which the part can lie in a setup. */
export interface LyingWay {
  /** A place of the setup, on the face that is up. */
  readonly face: (at: Position) => Place3;
  /** Down along the spindle, of length 1. */
  readonly down: Place3;
}

/** Does the operation see the part turned over, the far face up? */
export const isOver = (operation: OperationSeen): boolean =>
  ['over about X', 'over about Y'].includes(operation.work.setup?.lies ?? '');

/**
 * Every way in which the part can lie in an operation: one, except on edge or on end when "up" does not say which is up.
 *
 * Example: on edge with the front edge up there is one way; "on end" without a word there are four.
 */
export function lyingWays(ask: Pick<CheckAsk, 'plan'>, operation: OperationSeen): readonly LyingWay[] {
  const lies = operation.work.setup?.lies;
  return lies === 'on edge' || lies === 'on end' ? uprightWays(ask, operation) : [flatWay(ask, operation)];
}

/** The plan view or the far face: the frame of the setup undone. */
function flatWay({ plan: { part } }: Pick<CheckAsk, 'plan'>, operation: OperationSeen): LyingWay {
  const { signX, addX, signY, addY } = operation.work.frame;
  const datum = part.datum ?? 'left front';
  const u = datum.startsWith('left') ? 0 : part.length;
  const v = datum.endsWith('front') ? 0 : part.width;
  const below = isOver(operation);
  return {
    face: (at) => ({ x: (at.x - addX) * signX + u, y: (at.y - addY) * signY + v, z: below ? part.thickness : 0 }),
    down: { x: 0, y: 0, z: below ? -1 : 1 },
  };
}

/**
 * On edge its left end stays on the left, on end either edge may be there. With N up on the drawing, front edge up and U to
 * the right has N pointing away; a half turn about the spindle changes two of the signs.
 */
function uprightWays({ plan: { part } }: Pick<CheckAsk, 'plan'>, operation: OperationSeen): readonly LyingWay[] {
  const { length, width, thickness } = part;
  const outline = operation.setup?.outline ?? { x0: 0, y0: 0 };
  const up = operation.work.setup?.up?.toLowerCase() ?? '';
  const onEdge = operation.work.setup?.lies === 'on edge';
  const sides = onEdge ? (['front', 'rear'] as const) : (['left', 'right'] as const);
  const said = sides.filter((side) => up.includes(side));
  return (said.length === 1 ? said : sides).flatMap((side) =>
    (onEdge ? [false] : [false, true]).map((turned): LyingWay => {
      const low = side === 'front' || side === 'left';
      // Front edge up faces the top away, left end up faces it to the user; the other side and a half turn change that.
      const topFaces = (side === 'front' || side === 'right') === turned;
      return {
        face: (at) => {
          const [a, b] = [at.x - outline.x0, at.y - outline.y0];
          const z = topFaces ? b : thickness - b;
          const across = (whole: number) => (turned ? whole - a : a);
          return onEdge ? { x: across(length), y: low ? 0 : width, z } : { x: low ? 0 : length, y: across(width), z };
        },
        down: onEdge ? { x: 0, y: low ? 1 : -1, z: 0 } : { x: low ? 1 : -1, y: 0, z: 0 },
      };
    }),
  );
}
