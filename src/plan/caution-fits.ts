/**
 * Where a caution fits that belongs to a wider topic: a spot does not break through, at the bench no machine is isolated. One
 * that is not named here fits wherever its topic is due.
 */
import type { OperationKind, Station } from './resolved.ts';

interface Fit {
  readonly kinds?: readonly OperationKind[];
  readonly stations?: readonly Station[];
}

const SPINDLES: readonly Station[] = ['mill', 'pillar drill'];
/** Work whose chips come off hot and blue in steel, in strings in aluminium. */
const CHIPPING: readonly OperationKind[] = [
  'face',
  'mill to length',
  'mill edge',
  'slot',
  'step',
  'drill',
  'counterbore',
];

/** Work that is done with a file at the bench. */
const FILING: readonly OperationKind[] = [
  'deburr',
  'round corners',
  'hand work',
  'chamfer',
  'mill edge',
  'mill to length',
  'face',
  'slot',
  'step',
];

/** Cautions of a drill that comes out on the other side. */
const THROUGH: ReadonlySet<string> = new Set(['dm.clamp', 'dm.through', 'dp.through', 'mpl.crack']);

const FITS: Readonly<Record<string, Fit>> = {
  'dm.clamp': { kinds: ['drill'] },
  'dm.speed': { kinds: ['drill', 'spot', 'counterbore'] },
  'dm.peck': { kinds: ['drill', 'counterbore'] },
  'dm.through': { kinds: ['drill'] },
  'dm.jam': { kinds: ['drill', 'counterbore'] },
  'dp.belt': { stations: ['pillar drill'] },
  'dp.change': { stations: ['pillar drill'] },
  'dp.spin': { stations: ['pillar drill'] },
  'dp.through': { kinds: ['drill'] },
  'sp.short': { kinds: ['spot'], stations: SPINDLES },
  'sp.clamp': { stations: SPINDLES },
  're.speed': { stations: SPINDLES },
  'th.iso': { stations: SPINDLES },
  'th.out': { stations: SPINDLES },
  'db.handle': { kinds: FILING },
  'db.eyes': { kinds: FILING },
  'db.off': { kinds: FILING },
  'db.edge': { kinds: FILING },
  'in.stop': { stations: ['mill'] },
  'mb.grab': { kinds: ['drill'] },
  'mb.chips': { stations: [...SPINDLES, 'saw'] },
  'ma.weld': { kinds: CHIPPING, stations: SPINDLES },
  'ma.string': { kinds: CHIPPING, stations: SPINDLES },
  'ms.hot': { kinds: CHIPPING, stations: SPINDLES },
  'ms.dwell': { kinds: [...CHIPPING, 'tap', 'ream'], stations: SPINDLES },
  'mpl.crack': { kinds: ['drill'] },
  'mpl.fume': { stations: [...SPINDLES, 'saw'] },
};

/** What a caution is to fit. */
export interface FitAsk {
  readonly kind: OperationKind;
  readonly station: Station;
  /** Material as the plan names it. */
  readonly material: string;
  /** False when every hole of the operation is blind. */
  readonly through?: boolean;
}

/**
 * Does a caution fit this work at this station?
 *
 * Example: "Ease off as the point breaks through." fits drilling through, neither spotting nor a blind hole.
 */
export function cautionFits(id: string, { kind, station, material, through = true }: FitAsk): boolean {
  if (!through && THROUGH.has(id)) return false;
  if (id === 'ms.dwell' && !/stainless|\b(?:303|304|316)\b/iu.test(material)) return false;
  const fit = Object.hasOwn(FITS, id) ? FITS[id] : undefined;
  return (fit?.kinds?.includes(kind) ?? true) && (fit?.stations?.includes(station) ?? true);
}
