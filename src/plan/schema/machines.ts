/** The machines of a plan: what speeds they have, how a position is read on them, and what they hold. */
import * as z from 'zod';
import { STOPPING_TIME } from '../../shop/power-tapping.ts';
import { count, duration, type Fields, flag, form, listOf, oneOf, section, spindleSpeed, words } from './fields.ts';

/** A lathe is told plainly that it is not a station yet. */
const station = form(
  'What kind of machine it is.',
  'mill, pillar drill, saw or bench (a lathe is not a station yet)',
  (text) => (['mill', 'pillar drill', 'saw', 'bench'] as const).find((word) => word === text.toLowerCase()),
);

const directions = ['right', 'left', 'away', 'towards', 'up', 'down'] as const;

/** How one axis is read: on a readout of a resolution, or on a dial. */
const axisSection = (f: Fields, axis: string) =>
  z
    .union([
      section(`${axis} is read on a readout.`, { readout: f.size('Smallest step that the readout shows.') }),
      section(`${axis} is read on a dial.`, {
        'per turn': f.size('Travel for one turn of the handle.'),
        divisions: count('Marks around the dial.', 2, 1000),
        'clockwise counts': oneOf(
          'Does the dial count up or down when the handle turns clockwise?',
          ['up', 'down'],
          'up',
        ).optional(),
        'clockwise moves': oneOf('Which way the tool goes over the part when the handle turns clockwise.', directions),
        backlash: f.allowance('Lost motion when the handle turns back.', '0').optional(),
      }),
    ])
    .meta({ meaning: `How ${axis} is read.`, unit: 'a readout or a dial' });

export const machineSection = (f: Fields) =>
  section('One machine.', {
    name: words('What it is called in the shop.', 'its key').optional(),
    station,
    speeds: z
      .union([
        listOf('The spindle speeds that it has.', spindleSpeed('One speed.'), 60),
        section('A range without steps.', {
          from: spindleSpeed('Slowest speed.'),
          to: spindleSpeed('Fastest speed.'),
        }),
      ])
      .meta({ meaning: 'Spindle speeds: a list of steps, or from and to.', unit: 'turns a minute', default: 'none' })
      .optional(),
    'speed change': oneOf(
      'How another speed is set. A group of tools without unclamping shares one speed where a belt must be moved.',
      ['belt', 'lever', 'knob'],
      'belt for a list of steps, knob for a range',
    ).optional(),
    reverse: oneOf('Does the spindle reverse?', ['at once', 'after stopping', 'never'], 'never').optional(),
    'stopping time': duration('From switching off to a standing spindle.', 'not known', STOPPING_TIME).optional(),
    readout: f.size('Smallest step of a readout for X and Y.', 'no readout').optional(),
    x: axisSection(f, 'X').optional(),
    y: axisSection(f, 'Y').optional(),
    z: axisSection(f, 'Z').optional(),
    'depth read on': oneOf('Where depth is read.', ['knee', 'quill', 'depth stop', 'readout'], 'quill').optional(),
    vice: section('The vice on it.', {
      'jaw width': f.size('Width of the jaws, left to right.'),
      'jaw height': f.size('Height of the jaws above the bed of the vice.'),
      opening: f.size('Widest opening.'),
      'fixed jaw': oneOf('Which jaw does not move.', ['rear', 'front', 'left', 'right'], 'rear').optional(),
    }).optional(),
    travel: section('How far it travels.', {
      x: f.size('Along X.'),
      y: f.size('Along Y.'),
      z: f.size('Along Z.'),
    }).optional(),
    'inward feed': flag('Is it fit for inward (climb) feed, with no play in the screw?', 'no').optional(),
  });
export type PlanMachine = z.output<ReturnType<typeof machineSection>>;
