/** The setups of a plan: how the part is held, how it lies, where zero is and how it is found. */
import type * as z from 'zod';
import { count, type Fields, listOf, named, oneOf, section, sentence, words } from './fields.ts';

const axisZero = (f: Fields, axis: 'X' | 'Y') =>
  section(`Where ${axis} is zero and how it is found.`, {
    how: oneOf('How it is found.', ['edge finder', 'ground block', 'pin', 'indicator', 'scribed line', 'stop only']),
    against: words('What is touched, in your own words.', 'the stop or the fixed jaw'),
    end: oneOf(
      'Which end of the part, as it lies here, that ground touches.',
      axis === 'X' ? ['left', 'right'] : ['front', 'rear'],
      axis === 'X' ? 'the side of the stop' : 'the side of the fixed jaw',
    ).optional(),
    tip: f.diameter('Tip of the edge finder, or diameter of the pin.').optional(),
    block: f.size('Thickness of the ground block between.').optional(),
    side: oneOf(
      'On which side of the ground the finder stands.',
      axis === 'X' ? ['left', 'right'] : ['front', 'rear'],
      'at the stop or fixed jaw the side on which the part lies, at a face of the part the outside; said where neither is told',
    ).optional(),
    at: f
      .length('Coordinate of that ground; of the bore or line, measured from the end that is zero.', { default: '0' })
      .optional(),
  });

const zZero = (f: Fields) =>
  section('How a tool finds its own Z zero here.', {
    how: oneOf('How it is found.', ['feeler', 'touch', 'skim', 'by eye']),
    feeler: f.size('Thickness of the feeler under the tool.').optional(),
    on: words('The surface that is zero.', 'top of the part').optional(),
    at: f.length('Height of that surface.', { default: '0' }).optional(),
  });

export const setupSection = (f: Fields) =>
  section('One setup.', {
    title: words('What it is called.', 'its key').optional(),
    machine: words('Key of the machine.'),
    hold: oneOf('How the part is held.', ['vice', 'two vices', 'fixture', 'plate', 'by hand']),
    stop: section('The stop that the part is pushed against.', {
      side: oneOf('Where it stands.', ['left', 'right']),
      height: f.size('How high it reaches.').optional(),
    }).optional(),
    parallels: section('The parallels under the part.', {
      height: f.size('Their height.'),
      thickness: f.size('Their thickness.'),
      where: words('Where they stand; understood are "along both jaws" and "across under both ends".').optional(),
    }).optional(),
    'above jaws': f.size('How far the part stands above the jaws.').optional(),
    'beyond jaws': f.size('How far the end to be cut stands beyond the end of the jaws.').optional(),
    up: words('Which face is up.', 'face as drawn').optional(),
    lies: oneOf(
      'How the part lies against the drawing. "over about X" turns it over like a page from the near edge, so that front and rear change; "over about Y" changes left and right; "end for end" turns it on the table.',
      ['as drawn', 'over about X', 'over about Y', 'end for end', 'on edge', 'on end'],
      'as drawn',
    ).optional(),
    zero: section('Where zero is and how it is found.', {
      x: axisZero(f, 'X').optional(),
      y: axisZero(f, 'Y').optional(),
      z: zZero(f).optional(),
      tools: named('Z zero of single tools, where it differs.', zZero(f), 50).optional(),
    }).optional(),
    row: oneOf(
      'How the pieces of a load lie.',
      ['front to back', 'side by side', 'both ways'],
      'front to back',
    ).optional(),
    'per load': count(
      'Pieces held at once.',
      1,
      100,
      'as many as fit the jaws when the operation is done in loads',
    ).optional(),
    packing: words('What is put between unequal pieces so that each is gripped.').optional(),
    places: listOf(
      'Places of a load or fixture, with their offset from the first.',
      section('One place.', {
        name: words('What it is called.'),
        x: f.length('To the right of the first.', { default: '0' }).optional(),
        y: f.length('Away from the first.', { default: '0' }).optional(),
      }),
      100,
    ).optional(),
    steps: listOf(
      'More to do at this setup, one line a step, after what is worked out.',
      sentence('A step.'),
      30,
    ).optional(),
    prove: listOf('More to prove before metal is cut.', sentence('What is proved.'), 30).optional(),
  });
export type PlanSetup = z.output<ReturnType<typeof setupSection>>;
export type PlanAxisZero = z.output<ReturnType<typeof axisZero>>;
export type PlanZZero = z.output<ReturnType<typeof zZero>>;
