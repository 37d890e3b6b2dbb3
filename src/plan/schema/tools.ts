/** The tools of a plan. */
import * as z from 'zod';
import {
  count,
  cuttingSpeed,
  type Fields,
  flag,
  form,
  oneOf,
  pointAngle,
  section,
  sentence,
  spindleSpeed,
  words,
} from './fields.ts';

const toolKinds = [
  'spot',
  'drill',
  'reamer',
  'tap',
  'countersink',
  'counterbore',
  'end mill',
  'face mill',
  'saw blade',
  'file',
  'hand tool',
] as const;

const leadThreads = form('Lead of a tap in threads.', '5 threads', (text) => {
  const match = /^(\d+(?:\.\d+)?) threads?$/u.exec(text);
  return match === null ? undefined : { kind: 'threads' as const, threads: Number(match[1]) };
});

export const toolSection = (f: Fields) =>
  section('One tool.', {
    name: words('What it is called.', 'its kind and diameter').optional(),
    kind: oneOf(
      'What kind of tool it is. A sharp-pointed tool for spotting or chamfering is a spot or a countersink.',
      toolKinds,
    ),
    diameter: f.diameter('Nominal cutting diameter.').optional(),
    measured: f
      .diameter('Cutting diameter as measured; used instead of the nominal one.', 'the nominal diameter')
      .optional(),
    'point angle': pointAngle(
      'Included angle of the point.',
      '118 deg for a drill, 90 deg for a spot or countersink',
    ).optional(),
    'tip flat': f.allowance('Diameter of the flat at the tip of a cone.', '0').optional(),
    reach: f.size('How deep it can go before its shank or the chuck meets the part.', 'not watched').optional(),
    'stick out': f.size('How far it stands out of its chuck or holder.', 'not watched').optional(),
    holder: f
      .diameter('Diameter of that chuck or holder at its lower end; watched against jaws and stop.', 'not watched')
      .optional(),
    flutes: count('Cutting edges.', 1, 12, '2 for an end mill, 4 for a face mill').optional(),
    material: oneOf('What it is made of.', ['HSS', 'carbide', 'carbon steel'], 'HSS').optional(),
    lead: z
      .union([
        leadThreads,
        f.allowance('Lead of a tap or bevel of a reamer.').transform((mm) => ({ kind: 'length' as const, mm })),
      ])
      .meta({
        meaning: 'Lead of a tap, or bevel at the tip of a reamer.',
        unit: '5 threads, or a length',
        default: 'of a plug tap for a tap; 0 for a reamer',
      })
      .optional(),
    thread: words('Thread that a tap cuts, such as M5 or 8-32 UNC.').optional(),
    'cutting speed': cuttingSpeed('Cutting speed for this tool.', 'from the table for material and work').optional(),
    'top speed': spindleSpeed('Fastest spindle speed the tool stands.', 'no limit of its own').optional(),
    fluid: words('Cutting fluid.', 'none').optional(),
    prepare: sentence('What is done to the tool before this job, said at the change-over.').optional(),
    restore: sentence('What puts the tool right after this job.').optional(),
    'kept apart': flag('Is it kept apart for this material?', 'no').optional(),
    'sharpen after': count('Holes or passes after which it is sharpened.', 1, 100_000, 'not watched').optional(),
    'since sharpening': count('Holes cut since it was sharpened last.', 0, 100_000, '0').optional(),
  });
export type PlanTool = z.output<ReturnType<typeof toolSection>>;
