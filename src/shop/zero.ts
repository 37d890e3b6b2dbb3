/**
 * Finding the zero of a setup: the value to set on the readout or dial when a finder, pin or block touches, with its sign,
 * and the sum that leads to it.
 *
 * Sign: a coordinate is where the spindle's axis stands over the part. When a finder touches a face, the axis stands half a
 * tip away from it, on the side on which the finder stands: + on its right (X) or far (Y) side, - on its left or near side.
 * The sum is given as data; texts are made from it. Source: geometry (the axis stands at the edge plus or minus half the
 * tip), common practice.
 */
import { asMm, type Mm } from './quantities.ts';
import { ALLOWANCE, LENGTH, TOOL_DIAMETER } from './ranges.ts';
import { type Refusal, type Result, refuseOutside, whenSound } from './refusal.ts';

/** Side of the touched face on which the finder stands, along the axis being zeroed. */
export type Side = 'plus' | 'minus';

/** How the zero of one axis is found. */
export type ZeroMethod =
  | {
      /** A finder of a given tip against an edge. */
      readonly kind: 'edge-finder';
      readonly edgeAt: Mm;
      readonly tip: Mm;
      readonly side: Side;
    }
  | {
      /** A pin in the spindle with a ground block (or gauge, or feeler) between it and a stop or edge. */
      readonly kind: 'block';
      readonly edgeAt: Mm;
      /** Thickness of the block along the axis. */
      readonly block: Mm;
      readonly pin: Mm;
      readonly side: Side;
    }
  | {
      /** A pin or cutter in the spindle straight against the face, without a block. */
      readonly kind: 'pin';
      readonly edgeAt: Mm;
      readonly pin: Mm;
      readonly side: Side;
    }
  | {
      /** The spindle is centred over a bore or boss with an indicator. */
      readonly kind: 'indicator';
      readonly centreAt: Mm;
    }
  | {
      /** A pointed tool over a scribed line. */
      readonly kind: 'line';
      readonly lineAt: Mm;
    }
  | {
      /** The depth axis: a tool comes down on a feeler that lies on a surface. */
      readonly kind: 'feeler';
      readonly surfaceAt: Mm;
      readonly feeler: Mm;
    };

/** One summand of the value to set, signed. */
export interface ZeroTerm {
  readonly what: 'edge' | 'half tip' | 'block' | 'half pin' | 'centre' | 'line' | 'surface' | 'feeler';
  readonly amount: Mm;
}

/** The value to set and where it comes from. */
export interface ZeroSetting {
  /** What the readout must show at the moment of touch. */
  readonly set: Mm;
  /** The signed terms whose sum is `set`, the face first. */
  readonly terms: readonly ZeroTerm[];
  /**
   * Which way the tool moves along the axis as it comes to touch; every later point is reached moving the same way when
   * dials have backlash. `none` when nothing is touched from a side (indicator, scribed line).
   */
  readonly touchMoves: Side | 'none';
}

/**
 * The value to set on the readout for one axis at touch.
 *
 * @param method edge, centre, line or surface within 20 m of zero; tip or pin above 0 and at most 250 mm; block and feeler
 * from 0 to 1000 mm.
 * @returns the sum with its terms, unrounded (round at the readout or dial), or a refusal.
 *
 * Example: edge at 0, tip 10, finder on the left (`minus`): set -5.000, from edge 0 and half tip -5; the tool moves `plus`
 * to touch. With a tip of .200 in to the right of the stop: +.100 in, moving `minus`.
 */
export function zeroSetting(method: ZeroMethod): Result<ZeroSetting> {
  return whenSound(refuseMethod(method), () => {
    const terms = termsOf(method);
    return {
      set: asMm(terms.reduce((sum, term) => sum + term.amount, 0)),
      terms,
      touchMoves: touchMoves(method),
    };
  });
}

function termsOf(method: ZeroMethod): readonly ZeroTerm[] {
  switch (method.kind) {
    case 'edge-finder':
      return [
        { what: 'edge', amount: method.edgeAt },
        { what: 'half tip', amount: signed(method.tip / 2, method.side) },
      ];
    case 'block':
      return [
        { what: 'edge', amount: method.edgeAt },
        { what: 'block', amount: signed(method.block, method.side) },
        { what: 'half pin', amount: signed(method.pin / 2, method.side) },
      ];
    case 'pin':
      return [
        { what: 'edge', amount: method.edgeAt },
        { what: 'half pin', amount: signed(method.pin / 2, method.side) },
      ];
    case 'indicator':
      return [{ what: 'centre', amount: method.centreAt }];
    case 'line':
      return [{ what: 'line', amount: method.lineAt }];
    case 'feeler':
      return [
        { what: 'surface', amount: method.surfaceAt },
        { what: 'feeler', amount: method.feeler },
      ];
  }
}

const signed = (amount: number, side: Side): Mm => asMm(side === 'plus' ? amount : -amount);

function touchMoves(method: ZeroMethod): Side | 'none' {
  switch (method.kind) {
    case 'edge-finder':
    case 'block':
    case 'pin':
      return method.side === 'plus' ? 'minus' : 'plus';
    case 'indicator':
    case 'line':
      return 'none';
    case 'feeler':
      return 'minus';
  }
}

function refuseMethod(method: ZeroMethod): readonly (Refusal | undefined)[] {
  switch (method.kind) {
    case 'edge-finder':
      return [refusePlace(method.edgeAt, 'edge'), refuseOutside(method.tip, { ...TOOL_DIAMETER, what: 'finder tip' })];
    case 'block':
      return [
        refusePlace(method.edgeAt, 'edge'),
        refuseOutside(method.block, { ...ALLOWANCE, what: 'block thickness' }),
        refuseOutside(method.pin, { ...TOOL_DIAMETER, what: 'pin diameter' }),
      ];
    case 'pin':
      return [
        refusePlace(method.edgeAt, 'edge'),
        refuseOutside(method.pin, { ...TOOL_DIAMETER, what: 'pin diameter' }),
      ];
    case 'indicator':
      return [refusePlace(method.centreAt, 'centre')];
    case 'line':
      return [refusePlace(method.lineAt, 'line')];
    case 'feeler':
      return [
        refusePlace(method.surfaceAt, 'surface'),
        refuseOutside(method.feeler, { ...ALLOWANCE, what: 'feeler thickness' }),
      ];
  }
}

const refusePlace = (at: Mm, what: string): Refusal | undefined =>
  refuseOutside(at, { ...LENGTH, what: `place of the ${what}` });
