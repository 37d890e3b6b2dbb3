// Several pieces in one load: every one is cut as the one in the first place is, and nothing else is. What is cut is worked
// out here another way: point by point of the piece, from the coordinates that are wound to and the radius of the cutter.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { ResolvedCut, ResolvedPlan, ResolvedSetup } from '../../../src/plan/resolved.ts';
import { stepsOf } from '../../../src/plan/steps.ts';
import { formatSteps } from '../../../src/plan/steps-text.ts';
import { findingsOf, operationOf, problemsOf, proved, textOf } from '../plan-samples.ts';

type Ask = {
  readonly hold?: string;
  readonly setup?: string;
  readonly jaws?: string;
  readonly quantity?: number;
  readonly rest: string;
};

/** A plan for a part of 60 x 30 x 8, drawn from its left front corner, on a mill whose vice is 125 wide and opens 100. */
const plan = ({ hold = 'fixture', setup = '', jaws = 'fixed jaw: rear', quantity = 12, rest }: Ask): string => `
format: 1
id: t
job: T
units: mm
material: mild steel
part: { length: 60, width: 30, thickness: 8, datum: left front }
tolerance: ISO 2768-m
quantity: ${quantity}
machines:
  mill: { station: mill, speeds: [80, 340, 860, 1380, 2200], readout: 0.01, z: { readout: 0.01 }, vice: { jaw width: 125, jaw height: 40, opening: 100, ${jaws} } }
tools:
  d5: { kind: drill, diameter: 5 }
  em10: { kind: end mill, diameter: 10 }
  em16: { kind: end mill, diameter: 16, flutes: 4 }
setups:
  h:
    machine: mill
    hold: ${hold}
    zero: { x: { how: pin, tip: 10, against: pin, end: left }, y: { how: pin, tip: 10, against: pin, end: rear }, z: { how: touch } }
${setup}
${rest}
`;
const three = '    places: [{ name: L }, { name: M, x: 80 }, { name: R, x: 160 }]';
const drill =
  'operations: [{ number: 10, title: Drill, kind: drill, setup: h, tool: d5, points: [a, b], depth: through }]';
const twoHoles = `points: { a: { x: 10, y: 15 }, b: { x: 50, y: 15 } }\n${drill}`;
const slot = (line: string, more = '') =>
  `lines: { l: { ${line} } }\noperations: [{ number: 10, title: Slot, kind: slot, setup: h, tool: em10, lines: l${more} }]`;
const vice = `    stop: { side: left, height: 38 }
    parallels: { height: 36, thickness: 6, where: across under both ends }
    packing: card`;
const codes = (text: string, severity = 'stop') =>
  findingsOf(text).flatMap((finding) => (finding.severity === severity ? [finding.code] : []));

describe('holes of a load', () => {
  it('are counted one by one, and steps gives each its own coordinates, place after place', () => {
    const text = plan({ setup: three, rest: twoHoles });
    const { resolved, computed } = proved(text);
    expect(operationOf(resolved, 10)).toMatchObject({ counting: 'point', loadSize: 3 });
    const steps = stepsOf(resolved, computed);
    // Holes 10 and 50 from the left end; the ends lie at 0, 80 and 160. 15 from the front edge is 15 in front of the rear one.
    expect(
      steps.operations[0]?.cuts[0]?.targets.map(({ piece, place, name, x, y }) => [piece, place, name, x, y]),
    ).toEqual([
      [1, 'L', 'a', 10, -15],
      [1, 'L', 'b', 50, -15],
      [2, 'M', 'a', 90, -15],
      [2, 'M', 'b', 130, -15],
      [3, 'R', 'a', 170, -15],
      [3, 'R', 'b', 210, -15],
    ]);
    expect(steps.setups[0]?.places).toEqual([
      { name: 'L', x: 0, y: 0 },
      { name: 'M', x: 80, y: 0 },
      { name: 'R', x: 160, y: 0 },
    ]);
    expect(formatSteps(steps)).toContain('R: b     210.00    -15.00');
    expect(formatSteps(steps)).toContain('Places: L X 0.00 Y 0.00; M X 80.00 Y 0.00; R X 160.00 Y 0.00');
  });

  it('are counted one by one with a single hole too, but on a plan that says otherwise', () => {
    const one = plan({ setup: three, rest: twoHoles.replace('[a, b]', 'a') });
    expect(operationOf(proved(one).resolved, 10).counting).toBe('point');
    const said = one.replace('kind: drill, setup', 'kind: drill, counting: load, setup');
    expect(operationOf(proved(said).resolved, 10).counting).toBe('load');
  });

  it('in a fixture nothing is said of rows and parallels', () => {
    const steps = proved(plan({ setup: three, rest: twoHoles })).resolved.setups[0]?.steps.join(' ') ?? '';
    expect(steps).toContain('3 in a load, one in each place (L, M, R)');
    expect(steps).not.toMatch(/parallel|front to back/);
  });

  it('more pieces than places are refused where the plan says so', () => {
    const text = plan({ setup: `${three}\n    per load: 5`, rest: twoHoles });
    expect(problemsOf(text).map((problem) => problem.message)).toEqual([
      'operation 10 holds 5 pieces at once, and its setup has 3 places',
    ]);
  });
});

describe('line cuts of a load', () => {
  const passes = (text: string) =>
    stepsOf(proved(text).resolved).operations[0]?.cuts[0]?.passes.map(({ pieces, from, to }) => [
      pieces,
      [from.x, from.y],
      [to.x, to.y],
    ]);

  it('of pieces front to back each gets its slot, 30 apart', () => {
    const text = plan({
      hold: 'vice',
      setup: vice,
      rest: slot('kind: slot, along: x, at: 15, from: 0, to: 60, depth: 2', ', in loads: yes'),
    });
    // The axis runs out by the radius of 5 and 1 of air at both open ends.
    expect(passes(text)).toEqual([
      [[1], [-6, -15], [66, -15]],
      [[2], [-6, -45], [66, -45]],
      [[3], [-6, -75], [66, -75]],
    ]);
    expect(operationOf(proved(text).resolved, 10).counting).toBe('point');
  });

  it('across a row from jaw to jaw is one pass over all, counted with the load', () => {
    const text = plan({
      hold: 'vice',
      setup: vice,
      rest: slot('kind: slot, along: y, at: 30, from: 0, to: 30, depth: 2', ', in loads: yes'),
    });
    expect(passes(text)).toEqual([
      [
        [1, 2, 3],
        [30, -96],
        [30, 6],
      ],
    ]);
    expect(operationOf(proved(text).resolved, 10).counting).toBe('load');
  });

  it('an end milled to length in two places apart is two passes; the estimate has both', () => {
    const rest =
      'operations: [{ number: 10, title: Length, kind: mill to length, setup: h, tool: em16, length: 60, depth: 8.5 }]';
    const text = plan({ setup: '    places: [{ name: L }, { name: R, x: 80 }]', rest });
    const alone = plan({ rest });
    // 60 and the radius of 8 from each end stop; over 30 of width, 8 and 1 of air beyond.
    expect(passes(text)).toEqual([
      [[1], [68, -39], [68, 9]],
      [[2], [148, -39], [148, 9]],
    ]);
    const pieceTime = (one: string) => operationOf(proved(one).resolved, 10).estimate.piece;
    const [held, single] = [pieceTime(text), pieceTime(alone)];
    // Clamping is shared by two, the cut is not.
    expect(held).toBeGreaterThan(single * 0.6);
    expect(held).toBeLessThanOrEqual(single);
  });

  it('side by side run on through both where they lie against each other', () => {
    const row = '    places: [{ name: L }, { name: R, x: 60 }]';
    expect(passes(plan({ setup: row, rest: slot('kind: slot, along: x, at: 15, from: 0, to: 60, depth: 2') }))).toEqual(
      [
        [
          [1, 2],
          [-6, -15],
          [126, -15],
        ],
      ],
    );
  });

  it('a slot that ends in the part and runs out into the piece beside it is a stop', () => {
    const row = '    places: [{ name: L }, { name: R, x: 60 }]';
    const line = 'kind: slot, along: x, at: 15, from: 0, to: 30, ends: { to: closed }, depth: 2';
    expect(codes(plan({ setup: row, rest: slot(line) }))).toContain('neighbour-cut');
    const apart = row.replace('x: 60', 'x: 80');
    expect(codes(plan({ setup: apart, rest: slot(line) }))).toEqual([]);
  });

  it('an edge milled on the first of a row runs into the second: a stop with the way out', () => {
    const rest =
      'operations: [{ number: 10, title: Edge, kind: mill edge, setup: h, tool: em10, width: 30, depth: 3, per load: 3 }]';
    const found = findingsOf(plan({ hold: 'vice', setup: vice, rest })).filter((one) => one.code === 'neighbour-cut');
    expect(found.map(({ message }) => message)).toEqual(['the cut on piece 1 goes 10 mm into piece 2 beside it']);
    expect(found[0]?.tryThis).toContain('per load: 1');
  });

  it('the table must travel from the first place to the last, for passes as for holes', () => {
    const far = (x: number, rest: string) =>
      plan({ setup: `    places: [{ name: L }, { name: R, x: ${x} }]`, rest }).replace(
        'readout: 0.01,',
        'travel: { x: 300, y: 160, z: 300 }, readout: 0.01,',
      );
    const line = slot('kind: slot, along: x, at: 15, from: 0, to: 60, depth: 2');
    // From -6 to 66 and the offset: 72 and 228 make 300. Holes from 10 to 50 and the offset: 40 and 260 make 300.
    expect([far(228, line), far(229, line)].map((text) => codes(text))).toEqual([[], ['outside-travel']]);
    expect([far(260, twoHoles), far(261, twoHoles)].map((text) => codes(text))).toEqual([[], ['outside-travel']]);
  });

  it('parts laid into one another are a stop', () => {
    expect(codes(plan({ setup: '    places: [{ name: L }, { name: R, x: 40 }]', rest: twoHoles }))).toContain(
      'places-overlap',
    );
  });
});

describe('a load in a vice', () => {
  const inVice = (setup: string, holes = 'a: { x: 10, y: 15 }, b: { x: 50, y: 15 }') =>
    codes(plan({ hold: 'vice', setup, rest: twoHoles.replace('a: { x: 10, y: 15 }, b: { x: 50, y: 15 }', holes) }));
  const across = `${vice}\n    per load: 3`;

  it('on parallels across under both ends is drilled clear of them, in every row', () => {
    // 6 thick from each end: a hole of 5 at 10 leaves 1.5, one at 8 takes 0.5 of the parallel.
    expect(inVice(across)).toEqual([]);
    expect(inVice(across, 'a: { x: 8, y: 15 }, b: { x: 50, y: 15 }')).toEqual(['under-the-part']);
    expect(inVice(across, 'a: { x: 10, y: 15 }, b: { x: 52, y: 15 }')).toEqual(['under-the-part']);
  });

  it('on thick parallels along the jaws is seen to meet them in the outer rows', () => {
    const along = across.replace('across under both ends', 'along both jaws').replace('thickness: 6', 'thickness: 15');
    const two = along.replace('per load: 3', 'per load: 2');
    // 15 thick: in the front row a hole of 5 at 12 from the front edge, 9.5 to 14.5, lies wholly over the front one.
    expect(inVice(two, 'a: { x: 10, y: 12 }, b: { x: 50, y: 12 }')).toEqual(['under-the-part']);
  });

  it('in stated places must not reach further than the vice opens', () => {
    const placed = (y: number) => `${vice}\n    places: [{ name: A }, { name: B, y: ${y} }]`;
    // 30 and the offset: 70 and 71 against an opening of 100.
    expect([placed(-70), placed(-71)].map((setup) => inVice(setup))).toEqual([[], ['load-fit']]);
  });

  it('side by side in stated places wants something soft as any row along the jaws does', () => {
    const placed = `${vice}\n    places: [{ name: A }, { name: B, x: 60 }]`;
    const warned = (setup: string) => codes(plan({ hold: 'vice', setup, rest: twoHoles }), 'warn');
    expect(warned(placed)).toEqual([]);
    expect(warned(placed.replace('    packing: card\n', ''))).toEqual(['row-unequal']);
  });
});

describe('rows and columns', () => {
  const bothWays = (quantity: number) =>
    plan({
      hold: 'vice',
      quantity,
      setup: `${vice}\n    row: both ways`,
      rest: twoHoles.replace('depth: through', 'depth: 4, in loads: yes'),
    });
  const both = (quantity: number) => proved(bothWays(quantity));
  const placesOf = (resolved: ResolvedPlan) => resolved.setups[0]?.places.map(({ dx, dy }) => [dx, dy]);

  it('lie two along jaws of 125 and three in an opening of 100, the fixed jaw at the rear', () => {
    const { resolved, computed } = both(12);
    expect(placesOf(resolved)).toEqual([
      [0, 0],
      [60, 0],
      [0, -30],
      [60, -30],
      [0, -60],
      [60, -60],
    ]);
    expect(computed.find((note) => note.what === 'loads')?.value).toBe('2 loads: 2 of 6, 3 rows of 2');
  });

  it('never reach beyond the opening, and have no gap, whatever the order', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 200 }), (quantity) => {
        const { resolved } = both(quantity);
        const places = placesOf(resolved) ?? [];
        const { loadSize } = operationOf(resolved, 10);
        expect(places).toHaveLength(loadSize);
        const columns = new Map<number, number>();
        for (const [dx = 0] of places) columns.set(dx, (columns.get(dx) ?? 0) + 1);
        // Every column is as deep as the others, and no deeper than the vice opens.
        expect(new Set(columns.values()).size).toBe(1);
        expect(Math.max(...columns.values()) * 30).toBeLessThanOrEqual(100);
        expect(columns.size * 60).toBeLessThanOrEqual(125);
        // As few loads as the jaws allow, and no larger than they must be.
        const loads = Math.ceil(quantity / loadSize);
        expect(loads).toBe(Math.ceil(quantity / 6));
      }),
      { numRuns: 40 },
    );
  });

  it('a last load that is smaller is said, for it may not be whole rows', () => {
    const said = (quantity: number) => findingsOf(bothWays(quantity)).some((one) => one.code === 'load-last');
    expect([said(11), said(12)]).toEqual([true, false]);
  });

  it('front to back in a vice whose jaws stand left and right is a row along them', () => {
    const { resolved } = proved(
      plan({
        hold: 'vice',
        jaws: 'fixed jaw: left',
        setup: '    packing: card',
        rest: twoHoles.replace('depth: through', 'depth: 4, in loads: yes'),
      }),
    );
    // 125 along Y takes four of 30; from jaw to jaw they lie one deep.
    expect(placesOf(resolved)).toEqual([
      [0, 0],
      [0, -30],
      [0, -60],
      [0, -90],
    ]);
    expect(operationOf(resolved, 10).loadSize).toBe(4);
  });
});

/** Is the point of the plate cut away by one of these passes, as a disc of the radius that travels from end to end? */
const isCut = (passes: ResolvedCut['passes'], radius: number, x: number, y: number): boolean =>
  passes.some(({ from, to }) => {
    const along = Math.max(0, Math.min(1, share(from, to, x, y)));
    return Math.hypot(x - from.x - along * (to.x - from.x), y - from.y - along * (to.y - from.y)) < radius - 1e-6;
  });
const share = (from: { x: number; y: number }, to: { x: number; y: number }, x: number, y: number): number => {
  const long = (to.x - from.x) ** 2 + (to.y - from.y) ** 2;
  return long === 0 ? 0 : ((x - from.x) * (to.x - from.x) + (y - from.y) * (to.y - from.y)) / long;
};

describe('whatever the places, each piece is cut as one held alone is, or the plan is stopped', () => {
  const side = fc.constantFrom(0, 30, 31, 36, 45, 60, 61, 67, 72, 90, 130);
  const places = fc.array(fc.tuple(side, side), { minLength: 1, maxLength: 3 });
  const line = fc
    .tuple(fc.constantFrom('x', 'y'), fc.integer({ min: 6, max: 24 }), fc.boolean(), fc.constantFrom('slot', 'edge'))
    .map(([along, at, closed, kind]) => {
      const far = along === 'x' ? 60 : 30;
      const [ends, to] = closed ? [', ends: { to: closed }', far - 8] : ['', far];
      const edge = along === 'x' ? 'side: front' : 'side: left';
      return `kind: ${kind}, along: ${along}, at: ${kind === 'edge' ? 0 : at}, from: 0, to: ${to}${ends}, ${kind === 'edge' ? `${edge}, ` : ''}depth: 2`;
    });

  it('for slots and edges, open and closed', () => {
    let cutAlike = 0;
    fc.assert(
      fc.property(places, line, (offsets, drawn) => {
        const spots = [[0, 0], ...offsets].map(([x = 0, y = 0], at) => `{ name: p${at}, x: ${x}, y: ${-y} }`);
        const text = plan({ setup: `    places: [${spots.join(', ')}]`, rest: slot(drawn) });
        const stops = codes(text);
        if (stops.includes('places-overlap') || stops.includes('neighbour-cut')) return;
        const { resolved } = proved(text);
        const alone = operationOf(proved(plan({ rest: slot(drawn) })).resolved, 10).cuts[0] as ResolvedCut;
        const cut = operationOf(resolved, 10).cuts[0] as ResolvedCut;
        const setup = resolved.setups[0] as ResolvedSetup;
        for (const { dx, dy } of setup.places) {
          for (let x = 0.7; x < 60; x += 2.3) {
            for (let y = -0.6; y > -30; y -= 2.1) {
              expect([dx, dy, x, y, isCut(cut.loadPasses ?? [], 5, x + dx, y + dy)]).toEqual([
                dx,
                dy,
                x,
                y,
                isCut(alone.passes, 5, x, y),
              ]);
            }
          }
        }
        cutAlike += 1;
      }),
      { numRuns: 60, seed: 7 },
    );
    expect(cutAlike).toBeGreaterThan(10);
  });
});

describe('the jobs', () => {
  it('the fixture of the latch bars drills three holes in each of two places 7 in apart', () => {
    const { resolved } = proved(textOf('jobs/latch-bars.yaml'));
    const targets = stepsOf(resolved).operations.find((one) => one.number === 114)?.cuts[0]?.targets ?? [];
    // On a circle of .600 about 1.500 from the end and .700 from the rear edge, from 90 degrees, 120 apart.
    const wanted = [0, 7].flatMap((dx) =>
      [90, 210, 330].map((angle) => [
        1.5 + dx + 0.3 * Math.cos((angle * Math.PI) / 180),
        -0.7 + 0.3 * Math.sin((angle * Math.PI) / 180),
      ]),
    );
    expect(targets).toHaveLength(6);
    for (const [at, target] of targets.entries()) {
      expect(target.x).toBeCloseTo(wanted[at]?.[0] ?? Number.NaN, 3);
      expect(target.y).toBeCloseTo(wanted[at]?.[1] ?? Number.NaN, 3);
    }
    expect(operationOf(resolved, 114).counting).toBe('point');
  });
});
