/** One setup on paper: how the work is held, how the zero is found, what is proved before metal is cut. */

import { dialText } from '../../plan/dial-axis.ts';
import type { AxisZero, ResolvedMachine, ResolvedPlan, ResolvedSetup } from '../../plan/resolved.ts';
import type { Mm } from '../../shop/quantities.ts';
import { formatLength } from '../../shop/units.ts';
import { type Block, sentence } from '../document.ts';
import { readoutText } from './positions.ts';

/** The block of a setup up to its first operation; `drawing` is the SVG of src/plan/drawing-svg.ts, or `null`. */
export function setupBlocks(plan: ResolvedPlan, setup: ResolvedSetup, drawing: string | null): Block[] {
  const machine = plan.machines.find((one) => one.id === setup.machine) ?? null;
  const heading = `Setup ${setup.id}: ${setup.title}`;
  return [
    { kind: 'new page' },
    { kind: 'heading', text: heading },
    ...(drawing === null ? [] : [{ kind: 'drawing' as const, svg: drawing, label: `${heading}, from above` }]),
    { kind: 'facts', rows: holdingFacts(plan, setup, machine) },
    ...steps('Steps', setup.steps),
    ...steps('Prove before cutting', setup.prove),
  ];
}

function holdingFacts(
  plan: ResolvedPlan,
  setup: ResolvedSetup,
  machine: ResolvedMachine | null,
): (readonly [string, string])[] {
  const length = (mm: Mm) => formatLength(mm, plan.units);
  const { stop, parallels } = setup;
  const facts: (readonly [string, string | null])[] = [
    ['Machine', machine?.name ?? setup.machine],
    ['Held in', setup.hold],
    ['Up', setup.up],
    turnedFact(plan, setup),
    ['Stop', stop === null ? null : `${stop.side}${stop.height === null ? '' : `, ${length(stop.height)} high`}`],
    [
      'Parallels',
      parallels === null
        ? null
        : `${length(parallels.height)} high, ${length(parallels.thickness)} thick${parallels.where === null ? '' : `, ${parallels.where}`}`,
    ],
    [
      'Places',
      setup.places.length < 2
        ? null
        : setup.places.map((one) => `${one.name} (X ${length(one.dx)}, Y ${length(one.dy)})`).join('; '),
    ],
    ['X zero', setup.x === null ? null : zeroText(setup.x, machine, plan)],
    ['Y zero', setup.y === null ? null : zeroText(setup.y, machine, plan)],
    ['Z zero', setup.zZero],
  ];
  return facts.flatMap(([name, value]) => (value === null ? [] : [[name, value] as const]));
}

/** How the part was turned since the setup before, which is named: what is done there lies at the other end now. */
function turnedFact(plan: ResolvedPlan, setup: ResolvedSetup): readonly [string, string | null] {
  const before = plan.setups[plan.setups.indexOf(setup) - 1];
  if (before === undefined) return ['Lies against the drawing', setup.turned];
  return [`Since setup ${before.id}`, setup.turned === null ? 'laid flat again' : TURNED[setup.turned]];
}

const TURNED: Readonly<Record<NonNullable<ResolvedSetup['turned']>, string>> = {
  'as before': 'not turned',
  'over about X': 'turned over about X',
  'over about Y': 'turned over about Y',
  'end for end': 'turned end for end',
  'on edge': 'stood on edge',
  'on end': 'stood on end',
};

function zeroText(zero: AxisZero, machine: ResolvedMachine | null, plan: ResolvedPlan): string {
  const axis = (zero.axis === 'x' ? machine?.x : machine?.y) ?? { kind: 'none' };
  const dial = dialText(zero.set, axis);
  const set = `set ${readoutText(zero.set, axis, plan.units)}${dial === null ? '' : ` (dial ${dial})`}`;
  const way = zero.touchedGoing === null ? '' : `; touched going ${zero.touchedGoing}, so come to every point that way`;
  return `${zero.how} against ${zero.against}: ${zero.sum}; ${set}${way}`;
}

const steps = (name: string, items: readonly string[]): Block[] =>
  items.length === 0 ? [] : [sentence(`${name}:`), { kind: 'list', items, boxes: true }];
