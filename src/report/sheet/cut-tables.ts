/** What one tool does, as tables: speed and depth, points with readout and dial, passes. */

import { depthZeroWords, dialText } from '../../plan/dial-axis.ts';
import type { ResolvedCut, ResolvedMachine, ResolvedPlan, ResolvedSetup } from '../../plan/resolved.ts';
import { asMm, type Mm } from '../../shop/quantities.ts';
import { formatLength, formatTrimmed } from '../../shop/units.ts';
import { type Block, type Column, left, right, tableOf } from '../document.ts';
import { formatSpan } from '../time-text.ts';
import { readoutText, windText } from './positions.ts';

/** Where a cut is made: the plan's units, the machine's scales and the setup's zero. */
export interface CutPlace {
  readonly plan: ResolvedPlan;
  readonly machine: ResolvedMachine | null;
  readonly setup: ResolvedSetup | null;
  readonly loadSize: number;
}

const noAxis = { kind: 'none' } as const;

/** Facts about the tool and its speed, then its points and passes. */
export function cutBlocks(cut: ResolvedCut, place: CutPlace): Block[] {
  return [{ kind: 'facts', rows: toolFacts(cut, place) }, ...pointTable(cut, place), ...passTable(cut, place)];
}

function toolFacts(cut: ResolvedCut, { plan, machine }: CutPlace): (readonly [string, string])[] {
  const tool = plan.tools.find((one) => one.id === cut.tool);
  const length = (mm: Mm) => formatLength(mm, plan.units);
  const facts: (readonly [string, string | null])[] = [
    ['Tool', tool?.name ?? null],
    ['Before it goes in', tool?.prepare ?? null],
    ['Speed', cut.speed.set === null ? null : `${formatTrimmed(cut.speed.set, 0)} rpm (${cut.speed.because})`],
    ['Mind', cut.speed.remark],
    ['Z zero', depthZeroWords(cut.zZero, machine?.z)],
    ['Depth target', cut.z === null ? null : depthText(cut.z, machine, plan)],
    ['Top diameter', topText(cut, length)],
    ['Thread', threadText(cut, length)],
    ['Hand feed', cut.feel === null ? null : `${formatSpan(cut.feel.from)} to ${formatSpan(cut.feel.to)} a cut`],
    ['Clear chips every', cut.peck === null ? null : length(cut.peck)],
    ['Fluid', tool?.fluid ?? null],
    ['After use', tool?.restore ?? null],
  ];
  return facts.flatMap(([name, value]) => (value === null ? [] : [[name, value] as const]));
}

/** The top that a cone makes; every one of them where its holes differ. */
function topText(cut: ResolvedCut, length: (mm: Mm) => string): string | null {
  if (cut.topDiameter === null) return null;
  const tops = new Set(cut.points.map((point) => point.rim?.top ?? cut.topDiameter));
  return [...tops].flatMap((top) => (top === null ? [] : [length(top)])).join(' / ') || length(cut.topDiameter);
}

function threadText(cut: ResolvedCut, length: (mm: Mm) => string): string | null {
  const thread = cut.thread;
  if (thread === null) return null;
  const parts = [
    thread.name,
    thread.byHand ? 'by hand' : 'under power',
    thread.turns === null ? null : `${formatTrimmed(thread.turns, 1)} turns`,
    thread.fullThread === null ? null : `${length(thread.fullThread)} of full thread`,
    thread.tapDrill === null ? null : `tap drill ${length(thread.tapDrill)}`,
  ];
  return parts.filter((part) => part !== null).join(', ');
}

/** A depth as it is read at this machine: `-10.00 on the quill`, with the dial where there is one. */
function depthText(z: Mm, machine: ResolvedMachine | null, plan: ResolvedPlan): string {
  const axis = machine?.z ?? noAxis;
  const dial = dialText(z, axis);
  const read = machine === null ? '' : ` on the ${machine.zReadOn}`;
  return `${readoutText(z, axis, plan.units)}${read}${dial === null ? '' : `, dial ${dial}`}`;
}

function pointTable(cut: ResolvedCut, place: CutPlace): Block[] {
  const { plan, machine, setup } = place;
  const [xAxis, yAxis] = [machine?.x ?? noAxis, machine?.y ?? noAxis];
  const held = (setup?.places ?? [{ name: '', dx: asMm(0), dy: asMm(0) }]).slice(0, place.loadSize);
  const stops = held.flatMap((spot) =>
    cut.points.map((point) => ({
      ...point,
      name: held.length > 1 ? `${spot.name}: ${point.name}` : point.name,
      x: asMm(point.x + spot.dx),
      y: asMm(point.y + spot.dy),
    })),
  );
  const hasDial = xAxis.kind === 'dial' || yAxis.kind === 'dial';
  const columns: Column[] = [
    left('Point'),
    right('X'),
    right('Y'),
    ...(hasDial ? [left('X dial'), left('Y dial')] : []),
    right('Depth'),
    left('For'),
  ];
  const rows = stops.map((stop, index) => {
    const before = stops[index - 1] ?? { x: asMm(0), y: asMm(0) };
    const dials = [
      windText(before.x, stop.x, xAxis, setup?.x?.touchedGoing ?? null) ?? '-',
      windText(before.y, stop.y, yAxis, setup?.y?.touchedGoing ?? null) ?? '-',
    ];
    return [
      stop.name,
      readoutText(stop.x, xAxis, plan.units),
      readoutText(stop.y, yAxis, plan.units),
      ...(hasDial ? dials : []),
      stop.z === null ? '-' : depthText(stop.z, machine, plan),
      stop.note ?? '',
    ];
  });
  return tableOf(columns, rows);
}

/** The passes as they are wound: in a load those of every piece, or over several in one go. */
function passTable(cut: ResolvedCut, { plan, machine }: CutPlace): Block[] {
  const axisOf = (name: 'x' | 'y') => (name === 'x' ? machine?.x : machine?.y) ?? noAxis;
  const at = (mm: Mm, name: 'x' | 'y') => {
    const dial = dialText(mm, axisOf(name));
    return `${readoutText(mm, axisOf(name), plan.units)}${dial === null ? '' : ` (${dial})`}`;
  };
  const rows = (cut.loadPasses ?? cut.passes).map((pass) => [
    pass.last ? `${pass.name} (last)` : pass.name,
    `${pass.feedAxis.toUpperCase()} ${pass.feedTowards}`,
    `X ${at(pass.from.x, 'x')}, Y ${at(pass.from.y, 'y')}`,
    `X ${at(pass.to.x, 'x')}, Y ${at(pass.to.y, 'y')}`,
    depthText(pass.z, machine, plan),
  ]);
  return tableOf([left('Pass'), left('Feed'), left('From'), left('To'), right('Depth')], rows);
}
