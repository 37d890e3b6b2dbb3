// Everything that a plan is to be proved against, item by item: an edit of one sound plan, and the rule that must say so.
import { describe, expect, it } from 'vitest';
import type { Finding } from '../../../src/plan/checks/finding.ts';
import { severitiesOf } from '../../../src/plan/checks/finding.ts';
import { rules } from '../../../src/plan/checks/rules.ts';
import { findingsOf, plansIn, textOf } from '../plan-samples.ts';

const base = textOf('tests/samples/wrong-plans/burr-seat.neighbour.yaml');

type Edit = readonly [from: string, to: string];
type Item = readonly [item: string, code: string, severity: 'stop' | 'warn' | 'note', ...edits: Edit[]];

const drill5 = 'tool: drill-5, points: thread, depth: through';
const slotLine =
  'slot: { kind: slot, along: x, at: 12.5, from: 25, to: 42, ends: { from: closed, to: closed }, width: 6, passes: [2, 4] }';
const step = (at: string, rest: string): Edit => [
  'lines:\n',
  `lines:\n  step: { kind: step, along: x, at: ${at}, from: 0, to: 100, ${rest} }\n`,
];
const stepOperation: Edit = [
  '  - { number: 130,',
  '  - { number: 125, title: Step, kind: step, setup: top, tool: end-mill-16, lines: step }\n  - { number: 130,',
];
const edge = (lies: string, depth: number, x = 50): Edit[] => [
  [
    'points:\n',
    `  edge:
    machine: mill
    hold: fixture
    lies: ${lies}
    zero:
      x: { how: pin, tip: 10, against: pin, end: left }
      y: { how: pin, tip: 10, against: pin, end: rear }
      z: { how: touch }

points:
  cross: { x: ${x}, y: -5 }
`,
  ],
  [
    '  - { number: 140,',
    `  - { number: 132, title: Cross, kind: drill, setup: edge, tool: drill-5, points: cross, depth: ${depth} }\n  - { number: 140,`,
  ],
];

const byHand: readonly Edit[] = [
  [
    'points:\n',
    `  hand: { machine: mill, hold: by hand, zero: { x: { how: scribed line, against: line, at: 90 }, y: { how: scribed line, against: line, at: -12.5 }, z: { how: touch } } }

points:
  extra: { x: 93, y: 12.5 }
`,
  ],
  [
    '  - { number: 140,',
    '  - { number: 132, title: Last hole, kind: drill, setup: hand, tool: drill-6.6, points: extra, depth: through }\n  - { number: 140,',
  ],
];

const items: readonly Item[] = [
  ['a drill in a small part held by hand', 'drill-grabs', 'warn', ...byHand],
  [
    'a drill that opens a hole in a part held by hand',
    'drill-grabs',
    'stop',
    ...byHand,
    ['tool: drill-5, points: thread,', 'tool: drill-5, points: [thread, extra],'],
  ],
  ['a drill in brass held by hand', 'drill-grabs', 'stop', ...byHand, ['material: mild steel', 'material: brass']],
  [
    'a small drill in a long part held by hand on a milling machine',
    'drill-grabs',
    'warn',
    ...byHand,
    ['tool: drill-6.6, points: extra', 'tool: drill-5, points: extra'],
    ['part: { length: 100,', 'part: { length: 200,'],
  ],
  [
    'a slot milled in a part held by hand',
    'hand-held',
    'stop',
    ...byHand,
    ['kind: slot, setup: top', 'kind: slot, setup: hand'],
  ],
  [
    'a hole countersunk in a part held by hand',
    'hand-held',
    'warn',
    ...byHand,
    ['kind: countersink, setup: top', 'kind: countersink, setup: hand'],
  ],
  [
    'a drill that opens a hole on a pillar drill, and nothing says how the part is held',
    'drill-grabs',
    'note',
    [
      '  saw: { station: saw }',
      '  saw: { station: saw }\n  pillar: { station: pillar drill, speeds: [280, 450, 700] }',
    ],
    ['points:\n', 'points:\n  extra: { x: 93, y: 12.5 }\n'],
    ['tool: drill-5, points: thread,', 'tool: drill-5, points: [thread, extra],'],
    [
      '  - { number: 140,',
      '  - { number: 132, title: Last hole, kind: drill, machine: pillar, located by: follows the hole, tool: drill-6.6, points: extra, depth: through }\n  - { number: 140,',
    ],
  ],
  [
    'a drill breaks through the far face',
    'breaks-through',
    'stop',
    [drill5, 'tool: drill-5, points: thread, depth: 9'],
    ['thread: M6, depth: through', 'thread: M6, full thread: 2, by hand: yes'],
  ],
  [
    'a floor thinner than stated',
    'breaks-through',
    'stop',
    [drill5, 'tool: drill-5, points: thread, depth: 7, floor: 2'],
    ['thread: M6, depth: through', 'thread: M6, full thread: 2, by hand: yes'],
  ],
  [
    'a cone breaks through the far face',
    'breaks-through',
    'stop',
    ['{ at: pivot, top: 10.3 }', '{ at: pivot, top: 16 }'],
    ['thickness: 10 }', 'thickness: 8 }'],
    ['spot-16: { kind: spot, diameter: 16,', 'spot-16: { kind: spot, diameter: 20,'],
    ['top: 16 }', 'top: 17 }'],
  ],
  ['a slot leaves no floor', 'breaks-through', 'stop', ['passes: [2, 4]', 'passes: [5, 10]']],
  [
    'wall to an edge, at the top of the cone',
    'wall-thin',
    'warn',
    ['screw: { x: 80, y: 12.5 }', 'screw: { x: 92.7, y: 12.5 }'],
  ],
  ['wall to the next hole', 'wall-thin', 'warn', ['screw: { x: 80, y: 12.5 }', 'screw: { x: 67.3, y: 12.5 }']],
  ['wall to a slot', 'wall-thin', 'warn', ['from: 25, to: 42', 'from: 25, to: 49.2']],
  ['wall to a step', 'wall-thin', 'warn', step('20', 'side: rear, width: 5, depth: 3'), stepOperation],
  [
    'wall at the tip of a cross hole',
    'cross-wall',
    'warn',
    ...edge('on edge', 5.2, 55).slice(1),
    edge('on edge', 5.2, 55)[0] as Edit,
  ],
  [
    'wall of a hole in an edge to the face',
    'wall-thin',
    'warn',
    ...edge('on edge', 8, 35),
    ['cross: { x: 35, y: -5 }', 'cross: { x: 35, y: -3 }'],
  ],
  [
    'a tool meets a parallel',
    'under-the-part',
    'stop',
    ['parallels: { height: 33, thickness: 5', 'parallels: { height: 33, thickness: 9'],
  ],
  [
    'a tool meets the bed of the vice',
    'under-the-part',
    'stop',
    ['    parallels: { height: 33, thickness: 5, where: along both jaws }\n    above jaws: 3\n', ''],
  ],
  [
    'a feed of a millimetre a turn at 5 mm',
    'cutting-data-high',
    'warn',
    [drill5, 'tool: drill-5, points: thread, depth: through, feed: 1 mm/rev'],
  ],
  [
    'a drill that is fed sideways',
    'tool-unfit',
    'stop',
    ['tool: end-mill-6, lines: slot', 'tool: drill-6.6, lines: slot'],
  ],
  [
    // 80 rpm of 1 mm pitch over 30 s: 40 mm further, and the parallels leave 33.
    'a tap meets the bed of the vice while its spindle stops',
    'under-the-part',
    'stop',
    ['    stopping time: 2 s\n', '    stopping time: 30 s\n'],
  ],
  [
    'a tool meets the stop',
    'stop-height',
    'stop',
    [slotLine, 'slot: { kind: slot, along: x, at: 12.5, from: 0, to: 9, width: 6, passes: [2, 6] }'],
    [
      'stop: { side: left, height: 38 }\n    parallels: { height: 33',
      'stop: { side: left, height: 41 }\n    parallels: { height: 33',
    ],
    ['thread: { x: 15,', 'thread: { x: 24,'],
  ],
  ['a tool meets a jaw', 'jaw-met', 'stop', step('12.5', 'side: rear, width: 13, depth: 4'), stepOperation],
  [
    'ground cut away that a later setup grips',
    'seat-cut-away',
    'warn',
    step('22', 'side: rear, width: 3, depth: 4'),
    stepOperation,
    [
      '  - { number: 140,',
      '  - { number: 135, title: Again, kind: face, setup: again, tool: end-mill-16, depth: 0.2 }\n  - { number: 140,',
    ],
    [
      'points:\n',
      '  again: { machine: mill, hold: vice, stop: { side: left }, above jaws: 3, zero: { x: { how: stop only, against: stop }, y: { how: pin, tip: 10, against: fixed jaw }, z: { how: touch } } }\n\npoints:\n',
    ],
  ],
  [
    'burrs under the next seat',
    'burr-seat',
    'warn',
    ['  - { number: 20, title: Deburr, kind: deburr, machine: bench, tool: deburrer }\n', ''],
  ],
  [
    'unequal blanks side by side',
    'row-unequal',
    'warn',
    [
      '    beyond jaws: 8\n    lies: end for end',
      '    beyond jaws: 8\n    row: side by side\n    per load: 2\n    lies: end for end',
    ],
    ['jaw width: 125', 'jaw width: 250'],
  ],
  [
    'a tap drill too small',
    'tap-drill',
    'stop',
    ['drill-5: { kind: drill, diameter: 5 }', 'drill-5: { kind: drill, diameter: 4.9 }'],
  ],
  [
    'a tap drill too large',
    'tap-drill',
    'warn',
    ['drill-5: { kind: drill, diameter: 5 }', 'drill-5: { kind: drill, diameter: 5.3 }'],
  ],
  [
    'blind tapping without room for the lead',
    'tap-room',
    'stop',
    [drill5, 'tool: drill-5, points: thread, depth: 6'],
    ['thread: M6, depth: through', 'thread: M6, full thread: 5, by hand: yes'],
  ],
  [
    'a countersink before its hole',
    'before-its-hole',
    'stop',
    ['kind: drill, setup: top, tool: drill-6.6', 'kind: countersink, setup: top, tool: countersink-20'],
    ['points: screw, depth: through, screw: M6', 'points: screw, top: 13.5'],
    [
      'number: 110, title: Countersink, kind: countersink, setup: top, tool: countersink-20, points: screw, top: 13.5, screw: M6 countersunk',
      'number: 110, title: Drill, kind: drill, setup: top, tool: drill-6.6, points: screw, depth: through, screw: M6',
    ],
  ],
  [
    'a reamer in no hole',
    'before-its-hole',
    'stop',
    ['      - { kind: drill, tool: drill-9.8, points: pivot, depth: through }\n', ''],
  ],
  [
    'a clearance hole that does not clear',
    'clearance-hole',
    'stop',
    ['drill-6.6: { kind: drill, diameter: 6.6 }', 'drill-6.6: { kind: drill, diameter: 5.9 }'],
  ],
  [
    'a clearance hole that clears less than its position needs',
    'clearance-hole',
    'warn',
    ['depth: through, screw: M6 }', 'depth: through, screw: M6, position: 0.4 }'],
  ],
  ['a head proud', 'head-seat', 'warn', ['top: 13.5, screw', 'top: 13, screw']],
  [
    'a head in another angle',
    'head-seat',
    'warn',
    [
      'countersink-20: { kind: countersink, diameter: 20, point angle: 90 deg',
      'countersink-20: { kind: countersink, diameter: 20, point angle: 82 deg',
    ],
  ],
  [
    'a counterbore that does not take the head',
    'head-seat',
    'stop',
    [
      'countersink-20: { kind: countersink, diameter: 20, point angle: 90 deg, tip flat: 2 }',
      'countersink-20: { kind: counterbore, diameter: 10 }',
    ],
    [
      'kind: countersink, setup: top, tool: countersink-20, points: screw, top: 13.5, screw: M6 countersunk',
      'kind: counterbore, setup: top, tool: countersink-20, points: screw, depth: 6.5, screw: M6 cap head',
    ],
  ],
  ['a speed that the machine does not have', 'speed-not-there', 'stop', [drill5, `${drill5}, speed: 1000`]],
  [
    'a speed above the limit of the tool',
    'speed-high',
    'stop',
    ['drill-5: { kind: drill, diameter: 5 }', 'drill-5: { kind: drill, diameter: 5, top speed: 1000 }'],
    [drill5, `${drill5}, speed: 1380`],
  ],
  [
    'even the slowest is too fast',
    'slowest-too-fast',
    'warn',
    ['speeds: [80, 130, 210, 340, 540, 860, 1380, 2200]', 'speeds: [540, 860, 1380, 2200]'],
  ],
  [
    'tapping under power with too little room',
    'power-tapping',
    'stop',
    ['thickness: 10 }', 'thickness: 20 }'],
    [drill5, 'tool: drill-5, points: thread, depth: for the tap'],
    ['thread: M6, depth: through', 'thread: M6, full thread: 8'],
  ],
  [
    'tapping under power without a known stopping time',
    'power-tapping',
    'warn',
    ['    stopping time: 2 s\n', ''],
    ['thickness: 10 }', 'thickness: 20 }'],
    [drill5, 'tool: drill-5, points: thread, depth: for the tap'],
    ['thread: M6, depth: through', 'thread: M6, full thread: 8'],
  ],
  [
    'tapping under power fast on a spindle that never reverses',
    'power-tapping',
    'stop',
    ['reverse: after stopping', 'reverse: never'],
    ['thread: M6, depth: through', 'thread: M6, depth: through, by hand: no, speed: 340'],
  ],
  ['inward feed', 'inward-feed', 'warn', step('22', 'side: rear, width: 3, depth: 2, feed: right'), stepOperation],
  ['a point outside the part', 'outside-part', 'stop', ['pivot: { x: 55, y: 12.5 }', 'pivot: { x: -55, y: 12.5 }']],
  ['a line cut beside the part', 'outside-part', 'stop', ['at: 12.5, from: 25', 'at: -12.5, from: 25']],
  ['points outside the travel', 'outside-travel', 'stop', ['travel: { x: 400,', 'travel: { x: 50,']],
  ['a depth outside the travel', 'outside-travel', 'stop', ['z: 300 }', 'z: 12 }']],
  ['a part wider than the vice', 'vice-grip', 'stop', ['opening: 100', 'opening: 24']],
  [
    'a part that stands tall over its grip',
    'vice-grip',
    'note',
    ['thickness: 10 }', 'thickness: 60 }'],
    [
      '    parallels: { height: 33, thickness: 5, where: along both jaws }\n    above jaws: 3\n',
      '    above jaws: 50\n',
    ],
  ],
  [
    'a grip too shallow',
    'vice-grip',
    'warn',
    [
      'parallels: { height: 33, thickness: 5, where: along both jaws }\n    above jaws: 3',
      'parallels: { height: 37.7, thickness: 5, where: along both jaws }\n    above jaws: 7.7',
    ],
  ],
  ['a part that stands otherwise than stated', 'vice-grip', 'warn', ['    above jaws: 3', '    above jaws: 5']],
  [
    'a load that does not fit the jaws',
    'load-fit',
    'stop',
    ['in loads: yes, tool: end-mill-16, length: 101', 'per load: 5, tool: end-mill-16, length: 101'],
  ],
  ['a tolerance finer than the readout', 'tolerance-fine', 'warn', ['readout: 0.01', 'readout: 0.5']],
  [
    'chained dimensions',
    'chain-stack',
    'note',
    ['pivot: { x: 55, y: 12.5 }', 'pivot: { from: thread, x: 40 }'],
    ['screw: { x: 80, y: 12.5 }', 'screw: { from: pivot, x: 25 }'],
  ],
  [
    'quantities that do not add up',
    'quantities',
    'stop',
    ['quantity: 12\n', 'quantity: 12\nvariants: { a: { quantity: 5 } }\n'],
  ],
  ['bars that do not yield the blanks', 'bars-short', 'stop', ['bars: 3000', 'bars: 500, on hand: 1']],
  ['a bar shorter than a blank', 'bars-short', 'stop', ['bars: 3000', 'bars: 120']],
  ['an estimate off by more than three', 'estimate-off', 'note', [drill5, `${drill5}, estimate: { piece: 10 min }`]],
  [
    'a tool that is too short',
    'tool-reach',
    'warn',
    [
      'end-mill-6: { kind: end mill, diameter: 6, flutes: 2 }',
      'end-mill-6: { kind: end mill, diameter: 6, flutes: 2, reach: 3.9 }',
    ],
  ],
  [
    'a blind reamer that bottoms',
    'ream-deep',
    'stop',
    [
      'points: pivot, depth: through }\n      - { kind: ream, tool: reamer-10, points: pivot, depth: through }',
      'points: pivot, depth: 6 }\n      - { kind: ream, tool: reamer-10, points: pivot, depth: 6 }',
    ],
  ],
  [
    'too much left for the reamer',
    'ream-stock',
    'warn',
    ['drill-9.8: { kind: drill, diameter: 9.8 }', 'drill-9.8: { kind: drill, diameter: 9.2 }'],
  ],
  [
    'a blank shorter than the part',
    'blank-short',
    'stop',
    ['facing: 1,', 'blank: 99,'],
    ['length: 102 }', 'length: 99 }'],
  ],
  [
    'a check that allows no difference',
    'check-limits',
    'stop',
    ['within: 0.1, when: first-off', 'within: 0, when: first-off'],
  ],
  [
    'a check whose limits let a piece of any size pass',
    'check-limits',
    'stop',
    ['within: 0.1, when: first-off', 'within: 100, when: first-off'],
  ],
  [
    'a check whose limits are hardly limits',
    'check-limits',
    'warn',
    ['within: 0.1, when: first-off', 'within: 6, when: first-off'],
  ],
  [
    'a check of another length than the operation leaves',
    'check-limits',
    'warn',
    ['nominal: 100, within: 0.1', 'nominal: 101, within: 0.1'],
  ],
  [
    'a check of another length than the work before leaves',
    'check-limits',
    'warn',
    [
      'title: Look over, kind: inspect',
      'title: Look over, checks: [{ title: Length, nominal: 102, when: last }], kind: inspect',
    ],
  ],
  [
    'a check of another slot than is milled',
    'check-limits',
    'warn',
    [
      'tool: end-mill-6, lines: slot',
      'tool: end-mill-6, lines: slot, checks: [{ title: Width, nominal: 6.5, within: 0.1, when: last }]',
    ],
  ],
  [
    'a check finer than its gauge',
    'check-limits',
    'warn',
    ['within: 0.1, when: first-off', 'within: 0.01, gauge: calliper 0.02, when: first-off'],
  ],
  [
    'a size larger than the part from corner to corner',
    'check-limits',
    'warn',
    [
      'title: Look over, kind: inspect',
      'title: Look over, checks: [{ title: Over pins, nominal: 450, when: last }], kind: inspect',
    ],
  ],
  [
    'a thickness finer than the depth is read',
    'tolerance-fine',
    'warn',
    ['readout: 0.01\n', 'readout: 0.01\n    z: { readout: 0.1 }\n'],
    [
      '  - { number: 60,',
      '  - { number: 55, title: Face, kind: face, setup: top, tool: end-mill-16, depth: 0.2, checks: [{ title: Thickness, nominal: 10, within: 0.05, when: last }] }\n  - { number: 60,',
    ],
  ],
  [
    'a point named twice in one cut',
    'place-twice',
    'warn',
    [drill5, 'tool: drill-5, points: [thread, thread], depth: through'],
  ],
  [
    'one place under two names in one cut',
    'place-twice',
    'warn',
    ['points:\n', 'points:\n  other: { x: 15, y: 12.5 }\n'],
    [drill5, 'tool: drill-5, points: [thread, other], depth: through'],
  ],
  [
    'one place drilled again in a later operation',
    'place-twice',
    'note',
    [
      '  - { number: 80,',
      '  - { number: 75, title: Drill again, kind: drill, setup: top, tool: drill-5, points: thread, depth: through }\n  - { number: 80,',
    ],
  ],
  [
    'a place spotted beside the one that is drilled',
    'place-twice',
    'warn',
    ['points:\n', 'points:\n  other: { x: 15.1, y: 12.5 }\n'],
    ['points: [{ at: thread, top: 6.3 }', 'points: [{ at: other, top: 6.3 }'],
  ],
  [
    'a hole from an edge that runs into a slot',
    'cross-slot',
    'note',
    ...edge('on edge\n    up: front edge', 20, 33),
    ['y: -5 }', 'y: -3.5 }'],
  ],
  [
    'a hole from an edge that cuts into the floor of a slot',
    'cross-slot',
    'warn',
    ...edge('on edge\n    up: front edge', 20, 33),
  ],
  [
    'a hole from an edge too near to the end of a slot, by the edge that may be up',
    'cross-slot',
    'note',
    ...edge('on edge', 20, 22),
    ['y: -5 }', 'y: -3.5 }'],
  ],
  [
    'a hole from an edge too near to a step',
    'cross-slot',
    'warn',
    step('20', 'side: rear, width: 5, depth: 3'),
    stepOperation,
    ...edge('on edge\n    up: rear edge', 6, 33),
    ['y: -5 }', 'y: -4 }'],
  ],
  [
    'a floor too thin between a hole from the far face and a slot',
    'cross-slot',
    'warn',
    [
      'points:\n',
      `  far:
    machine: mill
    hold: fixture
    lies: over about X
    zero: { x: { how: pin, tip: 10, against: pin, end: left }, y: { how: pin, tip: 10, against: pin, end: rear }, z: { how: touch } }

points:
  below: { x: 33, y: 12.5 }
`,
    ],
    [
      '  - { number: 140,',
      '  - { number: 132, title: Below, kind: drill, setup: far, tool: drill-5, points: below, depth: 4 }\n  - { number: 140,',
    ],
  ],
  [
    'a cone that meets a jaw above the part',
    'holder-met',
    'stop',
    [
      'parallels: { height: 33, thickness: 5, where: along both jaws }\n    above jaws: 3\n',
      'parallels: { height: 25, thickness: 5, where: along both jaws }\n',
    ],
    ['screw: { x: 80, y: 12.5 }', 'screw: { x: 80, y: 8.5 }'],
  ],
  [
    'a holder that meets the stop above the part',
    'holder-met',
    'warn',
    [
      'stop: { side: left, height: 38 }\n    parallels: { height: 33',
      'stop: { side: left, height: 46 }\n    parallels: { height: 33',
    ],
    ['drill-5: { kind: drill, diameter: 5 }', 'drill-5: { kind: drill, diameter: 5, stick out: 14, holder: 40 }'],
  ],
  [
    'a cut deeper than its tool stands out of the holder',
    'tool-reach',
    'warn',
    ['drill-5: { kind: drill, diameter: 5 }', 'drill-5: { kind: drill, diameter: 5, stick out: 12 }'],
  ],
  [
    // A step from front to rear, deeper than the part stands above jaws at its left and right.
    'a tool meets a fixed jaw at the left',
    'jaw-met',
    'stop',
    [
      '  bench: { station: bench }\n',
      '  bench: { station: bench }\n  other: { station: mill, speeds: [80, 130, 210, 340, 540, 860, 1380, 2200], readout: 0.01, vice: { jaw width: 125, jaw height: 40, opening: 120, fixed jaw: left } }\n',
    ],
    [
      'points:\n',
      '  across: { machine: other, hold: vice, stop: { side: left, height: 38 }, parallels: { height: 33, thickness: 5, where: along both jaws }, zero: { x: { how: edge finder, tip: 10, against: fixed jaw }, y: { how: edge finder, tip: 10, against: edge }, z: { how: touch } } }\n\npoints:\n',
    ],
    step('12.5', 'side: rear, width: 13, depth: 4'),
    [
      '  - { number: 130,',
      '  - { number: 125, title: Step, kind: step, setup: across, tool: end-mill-16, lines: step }\n  - { number: 130,',
    ],
  ],
  [
    'a pass that clears the jaws by less than an eye sees',
    'jaw-met',
    'warn',
    step('12.5', 'side: rear, width: 13, depth: 2.8'),
    stepOperation,
    [
      'above jaws: 3\n    zero:\n      x: { how: edge finder, tip: 10, against: stop }\n      y: { how: edge finder, tip: 10, against: fixed jaw }\n      z: { how: feeler, feeler: 0.05 }',
      'above jaws: 3\n    zero:\n      x: { how: edge finder, tip: 10, against: stop }\n      y: { how: edge finder, tip: 10, against: fixed jaw }\n      z: { how: by eye }',
    ],
  ],
  [
    'a face of a part sunk between the jaws',
    'jaw-met',
    'stop',
    [
      'parallels: { height: 33, thickness: 5, where: along both jaws }\n    above jaws: 3\n',
      'parallels: { height: 25, thickness: 5, where: along both jaws }\n',
    ],
    [
      '  - { number: 60,',
      '  - { number: 55, title: Face, kind: face, setup: top, tool: end-mill-16, depth: 0.2 }\n  - { number: 60,',
    ],
  ],
  [
    'a face deeper than the part stands above the jaws',
    'jaw-met',
    'stop',
    [
      '  - { number: 60,',
      '  - { number: 55, title: Face, kind: face, setup: top, tool: end-mill-16, depth: 3.5 }\n  - { number: 60,',
    ],
  ],
  [
    'a face of a part of which nothing says how it stands',
    'jaw-met',
    'warn',
    ['    parallels: { height: 33, thickness: 5, where: along both jaws }\n    above jaws: 3\n', ''],
    [
      '  - { number: 60,',
      '  - { number: 55, title: Face, kind: face, setup: top, tool: end-mill-16, depth: 0.2 }\n  - { number: 60,',
    ],
  ],
  [
    'a thread that is drilled out again',
    'hole-done',
    'stop',
    [
      '  - number: 90',
      '  - { number: 85, title: Drill it out, kind: drill, setup: top, tool: drill-6.6, points: thread, depth: through }\n  - number: 90',
    ],
  ],
  [
    'a drill that finds a larger hole',
    'hole-done',
    'warn',
    [
      '  - { number: 110,',
      '  - { number: 105, title: Again, kind: drill, setup: top, tool: drill-5, points: screw, depth: through }\n  - { number: 110,',
    ],
  ],
  [
    'an end cut away below that a later setup puts to the stop',
    'seat-cut-away',
    'warn',
    [
      'lines:\n',
      'lines:\n  rebate: { kind: step, along: y, at: 95, from: 0, to: 25, side: right, width: 5, depth: 6 }\n',
    ],
    [
      '  - { number: 130,',
      '  - { number: 125, title: Rebate, kind: step, setup: top, tool: end-mill-6, lines: rebate, depth: 6 }\n  - { number: 130,',
    ],
    [
      'points:\n',
      `  over: { machine: mill, hold: vice, stop: { side: left, height: 38 }, parallels: { height: 33, thickness: 5, where: along both jaws }, above jaws: 3, lies: over about Y, zero: { x: { how: stop only, against: stop }, y: { how: pin, tip: 10, against: fixed jaw }, z: { how: touch } } }

points:
`,
    ],
    [
      '  - { number: 140,',
      '  - { number: 135, title: Far face, kind: face, setup: over, tool: end-mill-16, depth: 0.2 }\n  - { number: 140,',
    ],
  ],
  ['another length sawn than the stock says', 'blank-short', 'warn', ['facing: 1,', 'facing: 1.5,']],
  [
    'a floor that is thin, none being stated',
    'breaks-through',
    'warn',
    [drill5, 'tool: drill-5, points: thread, depth: 8.2'],
    ['thread: M6, depth: through', 'thread: M6, full thread: 2, by hand: yes'],
  ],
  [
    // 11/64 in before 3/16 in leaves .0156 in; .008 to .012 in are usual.
    'a sixty-fourth left for a small reamer',
    'ream-stock',
    'note',
    ['drill-9.8: { kind: drill, diameter: 9.8 }', 'drill-9.8: { kind: drill, diameter: 11/64 in }'],
    ['reamer-10: { kind: reamer, diameter: 10,', 'reamer-10: { kind: reamer, diameter: 3/16 in,'],
  ],
  [
    'nothing left for the reamer',
    'ream-stock',
    'stop',
    ['drill-9.8: { kind: drill, diameter: 9.8 }', 'drill-9.8: { kind: drill, diameter: 10 }'],
  ],
  [
    'blind tapping with little room below the tap',
    'tap-room',
    'warn',
    ['thickness: 10 }', 'thickness: 20 }'],
    [drill5, 'tool: drill-5, points: thread, depth: 8.5'],
    ['thread: M6, depth: through', 'thread: M6, full thread: 5, by hand: yes'],
  ],
  [
    'a tool that meets a parallel, if it stands where parallels usually do',
    'under-the-part',
    'warn',
    ['parallels: { height: 33, thickness: 5, where: along both jaws }', 'parallels: { height: 33, thickness: 9 }'],
  ],
  [
    'a row from jaw to jaw on parallels along the jaws',
    'load-bears',
    'stop',
    ['where: across under both ends', 'where: along both jaws'],
  ],
  [
    'two pieces from jaw to jaw, each on one parallel at its outer edge',
    'load-bears',
    'warn',
    ['opening: 100', 'opening: 50'],
    ['where: across under both ends', 'where: along both jaws'],
  ],
  [
    'several rows on parallels of which the plan does not say where they stand',
    'load-bears',
    'warn',
    [', where: across under both ends', ''],
  ],
];

// Their wrong plans alone show these: an edit of one line would not.
const shownByTheirPlans = [
  'row-inherits',
  'unlocated',
  'neighbour-cut',
  'places-overlap',
  'flutes-short',
  'pass-deep',
  'spares-none',
  'spot-wide',
  'datum-moved',
  'datum-other',
  'mirrored-hand',
  'order-setups',
  'variant-idle',
  'unmarked-variants',
  'no-zero',
  'slot-cutter',
  'thin-stock',
  'cone-size',
  'tap-other-thread',
  'shared-speed',
  'fast-wanted',
  'closed-end',
  'solid-start',
  'approach-side',
  'hand-tap',
  'load-last',
  'sawn-end',
  'unused',
  'deep-hole',
  'sharpen-due',
  'away-unsaid',
];

const known = new Map<Item, readonly Finding[]>();

/** What is found in the sound plan after the edits of an item. */
function foundIn(item: Item): readonly Finding[] {
  const found = known.get(item) ?? findingsOf(edited(item));
  known.set(item, found);
  return found;
}

function edited([, , , ...edits]: Item): string {
  let text = base;
  for (const [from, to] of edits) {
    expect(text, from).toContain(from);
    text = text.replace(from, () => to);
  }
  return text;
}

describe('what a plan is proved against', () => {
  it.each(items.map((item) => [item[0], item] as const))('%s', (_words, item) => {
    const [, code, severity] = item;
    const found = foundIn(item);
    const all = found.map((finding) => `${finding.severity} ${finding.code} ${finding.operation}: ${finding.message}`);
    expect(
      found.some((finding) => finding.code === code && finding.severity === severity),
      all.join('\n'),
    ).toBe(true);
  });

  it('every rule is in the table or shown by its own plan', () => {
    const codes = new Set([...items.map((item) => item[1]), ...shownByTheirPlans]);
    expect([...codes].sort()).toEqual(rules.map((rule) => rule.code).sort());
  });

  it('the plan that is edited trips no stop and no warning', () => {
    expect(findingsOf(base).filter((finding) => finding.severity !== 'note')).toEqual([]);
  });
});

describe('the list of rules', () => {
  it('names for each rule every severity that some plan of ours makes it give, and no other', () => {
    const folders = ['tests/samples/wrong-plans/', 'tests/samples/sound-plans/', 'jobs/'];
    const all = [...folders.flatMap(plansIn).flatMap((name) => findingsOf(textOf(name))), ...items.flatMap(foundIn)];
    const given = new Map(rules.map((rule) => [rule.code, new Set<string>()]));
    for (const finding of all) given.get(finding.code)?.add(finding.severity);
    const told = Object.fromEntries(rules.map((rule) => [rule.code, [...severitiesOf(rule)].sort()]));
    expect(Object.fromEntries([...given].map(([code, some]) => [code, [...some].sort()]))).toEqual(told);
  });
});
