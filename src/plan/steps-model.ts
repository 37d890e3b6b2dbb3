/** The shape of what `millside steps` tells, version 1: plain data, lengths in the plan's units, times in seconds. */
import type { ComputedNote } from './resolve/context.ts';

/** A reading on a dial, in turns and divisions from zero; null where the axis has no dial. */
export type DialText = string | null;

export interface StepPoint {
  readonly name: string;
  readonly x: number;
  readonly y: number;
  readonly z: number | null;
  readonly note: string | null;
  readonly dial: { readonly x: DialText; readonly y: DialText; readonly z: DialText };
}

/** A point of one piece of a load. */
export interface StepTarget extends StepPoint {
  /** Which piece of the load, from 1, and the name of its place. */
  readonly piece: number;
  readonly place: string;
}

export interface StepPass {
  readonly name: string;
  /** The pieces of a load that the pass goes over, from 1; null where one piece is held. */
  readonly pieces: readonly number[] | null;
  readonly feed_axis: 'x' | 'y';
  readonly feed_towards: '+' | '-';
  readonly from: { readonly x: number; readonly y: number };
  readonly to: { readonly x: number; readonly y: number };
  readonly z: number;
  readonly dial: {
    readonly from: DialText;
    readonly to: DialText;
    readonly across: DialText;
    readonly z: DialText;
  };
}

export interface StepCut {
  readonly tool: string | null;
  readonly tool_name: string | null;
  readonly speed_rpm: number | null;
  readonly computed_rpm: number | null;
  readonly because: string;
  readonly remark: string | null;
  readonly feed_per_turn: number | null;
  readonly feel_s: { readonly from: number; readonly to: number } | null;
  readonly peck: number | null;
  readonly top_diameter: number | null;
  /** How its tool finds its own Z zero, with the value to set. */
  readonly z_zero: string | null;
  readonly thread: {
    readonly name: string;
    readonly pitch: number;
    readonly tap_drill: string | null;
    /** Height of the thread in that hole, each basis named: "82.8 % of 5H/8, 69 % of 3H/4". */
    readonly engagement: string | null;
    readonly turns: number | null;
    readonly by_hand: boolean;
    readonly full_thread: number | null;
  } | null;
  readonly z: number | null;
  /** The points of one piece, in the first place of a load. */
  readonly points: readonly StepPoint[];
  /** Every point of a full load, in working order; empty where one piece is held. */
  readonly targets: readonly StepTarget[];
  /** Every pass of a full load, in working order. */
  readonly passes: readonly StepPass[];
}

export interface StepCheck {
  readonly title: string;
  readonly gauge: string | null;
  readonly nominal: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  readonly question: string | null;
  readonly first_off: boolean;
  readonly every: number | null;
  readonly last: boolean;
}

export interface StepOperation {
  readonly number: number;
  readonly title: string;
  readonly kind: string;
  readonly station: string;
  readonly machine: string | null;
  readonly setup: string | null;
  readonly variants: readonly string[];
  readonly per_load: number;
  readonly counting: string;
  readonly stop_length: number | null;
  readonly located_by: string | null;
  readonly away: {
    readonly to: string;
    readonly changes: readonly string[];
    /** Calendar days until it is back; null where the plan gives none. */
    readonly days: number | null;
  } | null;
  readonly cuts: readonly StepCut[];
  readonly checks: readonly StepCheck[];
  readonly notes: readonly string[];
  readonly cautions: readonly string[];
  readonly estimate: {
    readonly setup_s: number;
    readonly piece_s: number;
    readonly from: 'plan' | 'computed' | 'past batches';
    /** Batches that a time from past batches rests on; null else. */
    readonly batches: number | null;
  };
}

export interface StepSetup {
  readonly id: string;
  readonly title: string;
  readonly machine: string;
  readonly x_zero: string | null;
  readonly y_zero: string | null;
  readonly z_zero: string | null;
  readonly steps: readonly string[];
  readonly prove: readonly string[];
  /** The places of a load and their offsets from the first. */
  readonly places: readonly { readonly name: string; readonly x: number; readonly y: number }[];
  /** The setup from above as lines of text, at most 74 cells wide, its size and the meaning of its signs at the end. */
  readonly picture: readonly string[];
}

/** Shape version 1. Lengths in `units`, times in seconds. */
export interface PlanSteps {
  readonly format: 1;
  readonly plan: string;
  readonly job: string;
  readonly drawing: string | null;
  readonly revision: string | null;
  readonly units: 'mm' | 'inch';
  readonly material: string;
  readonly part: { readonly length: number; readonly width: number; readonly thickness: number };
  readonly variants: readonly { readonly id: string; readonly title: string; readonly quantity: number }[];
  readonly spares: number;
  readonly start: number;
  readonly stock: {
    readonly section: string;
    readonly blank: number;
    readonly bars: readonly { readonly length: number; readonly blanks_per_bar: number; readonly bars: number }[];
  } | null;
  readonly setups: readonly StepSetup[];
  readonly operations: readonly StepOperation[];
  /** What was worked out because the plan left it out. */
  readonly computed: readonly ComputedNote[];
}
