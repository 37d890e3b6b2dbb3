/**
 * What a batch is at a moment: plain data, made only by `evolve` from events. It holds counts by cell, what can be taken
 * back, the cards that are up, what is set on each machine, and the time spent in each account. Nothing here decides
 * anything; `decide` and the questions read it.
 */
import type { ResolvedPlan } from '../plan/resolved.ts';
import type { Card } from './cards.ts';
import type { Chain } from './chain.ts';
import type { BatchEvent, EventOf, LeftOut } from './events.ts';
import type { Instant } from './instant.ts';
import type { Lanes } from './lanes.ts';
import type { Counting } from './stops.ts';

/** Where time goes; every millisecond between opening and closing is in exactly one. */
export const accountNames = ['setup', 'run', 'check', 'delay', 'pause', 'away', 'unknown'] as const;
export type Account = (typeof accountNames)[number];
/** Milliseconds in each account. */
export type Accounts = Readonly<Record<Account, number>>;

/** The load in hand. `size` is 0 until its first point is done or its first piece rejected; then it stays as it began. */
export type LoadInHand = {
  readonly size: number;
  /** The next stop, as its position in the operation's stops. */
  readonly stop: number;
  /** Places whose piece was rejected before the count. */
  readonly rejected: readonly number[];
};

/** A finished load that was not taken back. */
export type Load = {
  /** Ordinal of its entry: loads of all cells in the order in which they were counted. */
  readonly entry: number;
  readonly good: number;
  /** Pieces that turned into scrap with the count or were rejected before it. */
  readonly scrap: number;
  readonly ms: number | null;
  readonly leftOut: LeftOut | null;
  readonly quick: boolean;
  readonly by: string | null;
  readonly at: Instant;
  /** Of its cell, up to the count: time in setup and in checks, and the pieces that still waited after it. */
  readonly setup_ms: number;
  readonly check_ms: number;
  readonly waiting: number;
  /** Time of the batch, up to the count, in which nobody worked: paused, away, unknown. */
  readonly idle_ms: number;
};

/** What one check knows of its cell: how many good pieces there were, and ordinals of pieces (good and scrap together). */
export type CheckFact = {
  /** Due as soon as more good pieces than this are counted; null when only the interval makes it due. */
  readonly dueAbove: number | null;
  /** The good pieces there were when it last came due: once none is left beyond them, nothing proves the setup. */
  readonly since: number;
  readonly checkedAt: number;
  /** Good pieces at the last check. */
  readonly goodThen: number;
  /** Last piece that was found good: pieces after it are suspect when the next is not. */
  readonly goodAt: number;
};

/** One thing that can be taken back, with what it changed in its cell and the load in hand as it was before. */
export type Entry = {
  readonly entry: number;
  readonly what: BatchEvent['kind'];
  readonly good: number;
  readonly scrap: number;
  readonly out: number;
  readonly outSince: Instant | null;
  readonly reworked: number;
  readonly load: LoadInHand;
  readonly lastGood: number;
  readonly checks: Readonly<Record<string, CheckFact>>;
  /** The checks right after it: one that is still the same is put back with it. */
  readonly checksAfter: Readonly<Record<string, CheckFact>>;
  /** What it changed outside its own cell. */
  readonly beyond:
    | { readonly kind: 'nothing' }
    | { readonly kind: 'rework'; readonly to: number; readonly pieces: number }
    | { readonly kind: 'shares'; readonly shares: Readonly<Record<string, number>> }
    | { readonly kind: 'more'; readonly pieces: number }
    | { readonly kind: 'correction' }
    /** Suspect pieces that were settled: scrapped, measured, or taken at the owner's word. */
    | { readonly kind: 'suspects'; readonly settled: readonly Suspects[] };
};

export type CheckEntry = {
  readonly check: string;
  readonly piece: number;
  readonly result: EventOf<'Checked'>['result'];
  /** Void when the count that it belonged to was taken back. */
  readonly void: boolean;
  readonly by: string | null;
  readonly at: Instant;
};

/** One operation in one lane. */
export type Cell = {
  readonly key: string;
  readonly operation: number;
  readonly lane: string;
  readonly begun: boolean;
  readonly good: number;
  readonly scrap: number;
  /** Pieces sent from here to an earlier operation, or through this one again. */
  readonly reworked: number;
  /** Pieces out of the house (an away operation), and when the last of them went; null before any did. */
  readonly out: number;
  readonly outSince: Instant | null;
  readonly trials: number;
  /** Set when the operator counts otherwise than the plan says. */
  readonly counting: Counting | null;
  readonly load: LoadInHand;
  /** Pieces of the last load that are still good: what "k of the last load" may turn into scrap. */
  readonly lastGood: number;
  readonly entries: Chain<Entry>;
  readonly loads: Chain<Load>;
  /** Run time since the previous count. */
  readonly loadRun_ms: number;
  /** Why the load in hand will not count as a timing. */
  readonly spoiled: LeftOut | null;
  readonly checks: Readonly<Record<string, CheckFact>>;
  readonly checkLog: Chain<CheckEntry>;
  readonly accounts: Accounts;
};

/** What stands ready on one machine (or at a station without one). */
export type MachineState = {
  readonly setup: string | null;
  /** Whether the zero of each axis stands; `why` says what lost it. */
  readonly x: boolean;
  readonly y: boolean;
  readonly why: string | null;
  /** Tools that are in, in this setup. */
  readonly tools: readonly string[];
  /** Tools whose own Z zero was set from its card, and on which top: how often it was faced in this setup before. */
  readonly depths: readonly { readonly tool: string; readonly faced: number }[];
  /** Tools whose Z zero was lost since it was set. */
  readonly lostDepths: readonly string[];
  /** Spindle speed in turns a minute: null when it stands still, undefined when nobody knows. */
  readonly rpm: number | null | undefined;
};

export type Suspects = {
  readonly operation: number;
  readonly lane: string;
  readonly check: string;
  readonly from: number;
  readonly to: number;
  /** The piece whose check failed. */
  readonly piece: number;
  /** Their operation is done and somebody said that they are kept apart. */
  readonly apart?: true;
};

export type Correction = {
  readonly entry: number;
  readonly operation: number;
  readonly lane: string;
  readonly cut: number;
  readonly axis: 'x' | 'y' | 'z' | 'stop';
  readonly by: number;
  readonly reading: number | null;
  readonly reason: string;
  readonly at: Instant;
  readonly takenBack: boolean;
  /** Position of the one hole that it is of; not there: all holes of the cut. */
  readonly point?: number;
};

/** One stretch of work between opening and leaving. */
export type Sitting = {
  readonly began: Instant;
  readonly by: string | null;
  readonly host: string;
  readonly afterCut: boolean;
  readonly ended: { readonly at: Instant; readonly why: EventOf<'SittingEnded'>['why'] | 'cut' } | null;
};

/** A stretch of time in one account and one cell; neighbours of the same kind are one. */
export type Span = {
  readonly account: Account;
  /** Key of the cell, null while no operation is at hand. */
  readonly cell: string | null;
  readonly from: Instant;
  readonly ms: number;
};

/** Something said or done that the report tells; `entry` is the ordinal of its count when it is one, to see whether it was taken back. */
export type Remark = {
  readonly at: Instant;
  readonly by: string | null;
  readonly event: BatchEvent;
  readonly entry: number;
};

/** A target that was corrected: the cut of an operation or one hole of it, and the axis. */
export type CorrectedTarget = {
  readonly operation: number;
  readonly cut: number;
  readonly axis: 'x' | 'y' | 'z';
  readonly point?: number | undefined;
};

/** The conditions that make a card due; each is cleared when its card is passed. */
export type Needs = {
  readonly resume: { readonly away_ms: number; readonly cut: boolean } | null;
  readonly recount: boolean;
  /** Checks asked for by the operator in the operation at hand. */
  readonly asked: readonly string[];
  /** A tool that was sharpened or changed and goes in again. */
  readonly toolBack: { readonly tool: string; readonly sharpened: boolean } | null;
  /** "Operation ended" was passed and nothing came since. */
  readonly endSeen: boolean;
  /** Corrections that were in force when their zero was lost: asked for once it stands again. */
  readonly corrections: readonly CorrectedTarget[];
  /** Shortage that was already shown. */
  readonly shortageSeen: number;
};

export type Batch = {
  readonly kind: 'open' | 'finished' | 'given up';
  readonly plan: ResolvedPlan;
  readonly lanes: Lanes;
  readonly planText: string;
  readonly planSha256: string;
  readonly planPath: string | null;
  readonly declinedPlans: readonly string[];
  readonly zone: string;
  /** When the shop is open; null: always. */
  readonly hours: EventOf<'BatchOpened'>['hours'];
  readonly rate: EventOf<'BatchOpened'>['rate'];
  readonly overrides: EventOf<'BatchOpened'>['overrides'];
  readonly opened: Instant;
  readonly closed: Instant | null;
  /** Instant of the newest line: the time up to it is in the accounts. */
  readonly last: Instant;
  readonly presence: 'left' | 'here' | 'paused';
  readonly pause: { readonly reason: string | null; readonly since: Instant } | null;
  readonly by: string | null;
  /** The last person known by initials, to notice a handover. */
  readonly lastPerson: string | null;
  readonly sittings: Chain<Sitting>;
  /** Position of the cell being worked, in `lanes.places`. */
  readonly current: number | null;
  readonly cells: readonly Cell[];
  /** Pieces of the pool that went to each variant. */
  readonly allotted: Readonly<Record<string, number>>;
  /** Pieces started beyond the plan's quantity. */
  readonly more: number;
  readonly cards: readonly Card[];
  /** Cards raised so far: numbers the next one. */
  readonly cardsRaised: number;
  /** Cards passed without being proved, newest first. */
  readonly unproved: Chain<{ readonly card: Card; readonly shown_ms: number; readonly at: Instant }>;
  readonly nextEntry: number;
  readonly needs: Needs;
  readonly machines: Readonly<Record<string, MachineState>>;
  /** Variant last worked on since the lanes parted. */
  readonly variantInHand: string | null;
  /** Tools put right after their last use. */
  readonly restored: readonly string[];
  /** Holes that each tool had made when it was last sharpened or changed. */
  readonly holesAtChange: Readonly<Record<string, number>>;
  readonly corrections: readonly Correction[];
  readonly suspects: readonly Suspects[];
  readonly accounts: Accounts;
  readonly spans: Chain<Span>;
  readonly remarks: Chain<Remark>;
  readonly outcome: { readonly short: Readonly<Record<string, number>>; readonly reason: string | null } | null;
};

/** Nothing before the batch is opened, then the batch. */
export type BatchState = { readonly kind: 'none' } | Batch;

export const noBatch: BatchState = { kind: 'none' };

export const emptyAccounts: Accounts = { setup: 0, run: 0, check: 0, delay: 0, pause: 0, away: 0, unknown: 0 };
export const emptyLoad: LoadInHand = { size: 0, stop: 0, rejected: [] };
export const unsetMachine: MachineState = {
  setup: null,
  x: false,
  y: false,
  why: null,
  tools: [],
  depths: [],
  lostDepths: [],
  rpm: undefined,
};
