/** Topics about the tap in the hole: turns and depths, tapping under power. */
import {
  blindTapTurns,
  blindThreadDrillDepth,
  tapLead,
  tapThroughTravel,
  threadRunOut,
  threadTurns,
} from '../../shop/blind-threads.ts';
import { judgePowerTapping, type PowerTapping, USUAL_STOPPING_TIME } from '../../shop/power-tapping.ts';
import { andThen, answer, type Result, refuse } from '../../shop/refusal.ts';
import { parseThread } from '../../shop/thread-names.ts';
import type { Thread } from '../../shop/threads.ts';
import { allowance, duration, oneOf, positiveLength, REVERSES, spindleSpeedText } from './readers.ts';
import { THREAD_FLAG } from './thread-words.ts';
import { type Asked, read, readIf, readOr, type Topic, type TopicAnswer, withAll } from './topic.ts';
import { sayLength, sayNumber } from './words.ts';

const LEAD_FLAGS = [
  { name: 'lead', value: 'THREADS', meaning: 'tapered threads at the tip of the tap; 5 when left out' },
  { name: 'form', value: 'FORM', meaning: 'instead of --lead: "form C", plug, bottoming; its longest lead is taken' },
];

const leadOf = (asked: Asked): Result<number> =>
  asked.given.has('form')
    ? andThen(read(asked, 'form', tapLead), (row) => answer(row.threads[1]))
    : readOr(asked, 'lead', leadThreads, 5);

const leadThreads = (text: string): Result<number> => {
  const value = Number(text);
  return text.trim() !== '' && value >= 0 && value <= 20
    ? answer(value)
    : refuse({ what: 'lead', found: `"${text}"`, allowed: '0 to 20 threads', remedy: 'count the tapered threads' });
};

export const tapTurns: Topic = {
  name: 'tap-turns',
  summary: 'turns of the tap and the depth to drill for a blind or through thread',
  flags: [
    THREAD_FLAG,
    { name: 'full-thread', value: 'LENGTH', meaning: 'blind: length of good thread from the face' },
    { name: 'through', value: 'LENGTH', meaning: 'through: thickness of the part' },
    ...LEAD_FLAGS,
    {
      name: 'clearance',
      value: 'LENGTH',
      meaning: 'blind: room below the tap; one pitch when left out',
      with: ['full-thread'],
    },
  ],
  needs: [['thread'], ['full-thread', 'through']],
  apart: [
    ['full-thread', 'through'],
    ['lead', 'form'],
  ],
  example: 'tap-turns --thread "no. 8-32 UNC" --full-thread ".375 in" --lead 5',
  run: (asked) =>
    withAll({ found: read(asked, 'thread', parseThread), lead: leadOf(asked) }, ({ found, lead }) =>
      asked.given.has('through') ? throughTurns(asked, found, lead) : blindTurns(asked, found, lead),
    ),
};

const throughTurns = (asked: Asked, found: Thread, lead: number): Result<TopicAnswer> =>
  andThen(read(asked, 'through', positiveLength), (thickness) =>
    andThen(tapThroughTravel(thickness, found.pitch, lead), (travel) =>
      andThen(threadTurns(travel, found.pitch), (turns) =>
        answer({
          text: `${sayNumber(turns, 1)} turns, travel ${sayLength(travel, asked.unit)}`,
          working: [
            `(${sayLength(thickness, asked.unit)} + ${lead} threads of lead) / pitch ${sayLength(found.pitch, asked.unit)}`,
          ],
          fields: { turns, travel_mm: travel, thread: found.name, pitch_mm: found.pitch, lead_threads: lead },
        }),
      ),
    ),
  );

const blindTurns = (asked: Asked, found: Thread, lead: number): Result<TopicAnswer> =>
  withAll(
    {
      fullThread: read(asked, 'full-thread', positiveLength),
      room: readOr(asked, 'clearance', allowance, found.pitch),
    },
    ({ fullThread, room }) => {
      const hole = { fullThread, pitch: found.pitch, leadThreads: lead, clearance: room };
      return withAll(
        { turns: blindTapTurns(hole), drilled: blindThreadDrillDepth(hole), runOut: threadRunOut(found.pitch) },
        ({ turns, drilled, runOut }) =>
          answer({
            text: `stop at ${sayNumber(turns.stopAt, 1)} turns; bottoms at ${sayNumber(turns.bottomsAt, 1)}; drill ${sayLength(drilled, asked.unit)} of full diameter`,
            working: [
              `${sayLength(fullThread, asked.unit)} + ${lead} x ${sayLength(found.pitch, asked.unit)} + ${sayLength(room, asked.unit)}`,
              `with a tap not known DIN 76-1 asks for ${sayLength(runOut, asked.unit)} beyond the full thread`,
            ],
            fields: {
              stop_at_turns: turns.stopAt,
              bottoms_at_turns: turns.bottomsAt,
              drilled_depth_mm: drilled,
              full_thread_mm: fullThread,
              thread: found.name,
              pitch_mm: found.pitch,
              lead_threads: lead,
              clearance_mm: room,
              din_76_run_out_mm: runOut,
            },
          }),
      );
    },
  );

export const powerTap: Topic = {
  name: 'power-tap',
  summary: 'whether a thread can be tapped under power: how far the tap runs on while the spindle stops',
  flags: [
    THREAD_FLAG,
    { name: 'speed', value: 'RPM', meaning: 'spindle speed' },
    { name: 'reverses', value: 'HOW', meaning: `${REVERSES.join(', ')}; after stopping when left out` },
    {
      name: 'stops-in',
      value: 'TIME',
      meaning: 'from pressing stop to standing still; 1 s when left out (from memory)',
    },
    { name: 'run-out', value: 'LENGTH', meaning: 'room below the tap at depth; left out for a through hole' },
  ],
  needs: [['thread'], ['speed']],
  example: 'power-tap --thread M6 --speed 90 --stops-in "1 s" --run-out "3 mm"',
  run: (asked) =>
    withAll(
      {
        found: read(asked, 'thread', parseThread),
        speed: read(asked, 'speed', spindleSpeedText),
        reverse: readOr(asked, 'reverses', oneOf(REVERSES), 'after stopping' as const),
        stoppingTime: readOr(asked, 'stops-in', duration, USUAL_STOPPING_TIME),
        runOut: readIf(asked, 'run-out', allowance),
      },
      ({ found, speed, reverse, stoppingTime, runOut }) => {
        const room = runOut === undefined ? {} : { runOutLeft: runOut };
        return andThen(judgePowerTapping({ speed, pitch: found.pitch, reverse, stoppingTime, ...room }), (verdict) =>
          answer({
            text: sayTapping(verdict, asked),
            working: [
              `runs on at most ${speed} x ${sayLength(found.pitch, asked.unit)} / 60 x ${stoppingTime} s; time the spindle, keep to the machine's manual`,
            ],
            fields: {
              verdict: verdict.kind,
              runs_on_mm: verdict.kind === 'reverses at once' ? null : verdict.runsOn,
              ...('highestSpeed' in verdict && verdict.highestSpeed !== undefined
                ? { highest_speed_rpm: verdict.highestSpeed }
                : {}),
              thread: found.name,
              pitch_mm: found.pitch,
              spindle_speed_rpm: speed,
              stopping_time_s: stoppingTime,
            },
          }),
        );
      },
    ),
};

function sayTapping(verdict: PowerTapping, asked: Asked): string {
  switch (verdict.kind) {
    case 'reverses at once':
      return 'tap under power: reverse at depth';
    case 'fits':
      return `tap under power: runs on ${sayLength(verdict.runsOn, asked.unit)}, which fits`;
    case 'back out by hand':
      return `drive it in, stop, back out by hand: runs on ${sayLength(verdict.runsOn, asked.unit)}`;
    case 'runs too far':
      return `runs on ${sayLength(verdict.runsOn, asked.unit)}, more than is left${verdict.highestSpeed === undefined ? '' : `; below ${sayNumber(verdict.highestSpeed, 0)} rpm it would fit`}`;
    case 'by hand':
      return `tap by hand: it would run on ${sayLength(verdict.runsOn, asked.unit)} and the spindle does not reverse`;
  }
}
