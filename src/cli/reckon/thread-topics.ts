/** Topics about threads: tap drill, clearance hole, sizes, turns of the tap, tapping under power. */
import {
  blindTapTurns,
  blindThreadDrillDepth,
  tapLead,
  tapThroughTravel,
  threadRunOut,
  threadTurns,
} from '../../shop/blind-threads.ts';
import { clearanceHoles } from '../../shop/clearance-holes.ts';
import { drillName } from '../../shop/drill-sizes.ts';
import { parseDuration } from '../../shop/parse-quantity.ts';
import { judgePowerTapping, type PowerTapping, USUAL_STOPPING_TIME } from '../../shop/power-tapping.ts';
import type { Mm } from '../../shop/quantities.ts';
import { andThen, answer, type Result, refuse } from '../../shop/refusal.ts';
import {
  formatEngagement,
  formatLimits,
  judgeOrRefuse,
  judgeTapDrill,
  type TapDrillVerdict,
} from '../../shop/tap-drills.ts';
import { parseThread } from '../../shop/thread-names.ts';
import { basesOf, holeForEngagement, type Thread, threadGeometry } from '../../shop/threads.ts';
import { formatTrimmed, mmToInches } from '../../shop/units.ts';
import { allowance, diameter, oneOf, percent, positiveLength, spindleSpeedText } from './readers.ts';
import { type Asked, type Field, read, readIf, readOr, type Topic, type TopicAnswer, withAll } from './topic.ts';
import { sayBoth, sayLength, sayNumber } from './words.ts';

const THREAD = { name: 'thread', value: 'NAME', meaning: 'M6, M5x0.5, "1/4-20 UNC", "4 BA", "1/4 x 40 ME"' };
const BASES = ['5H/8', '3H/4', 'Whitworth depth', 'BA depth'] as const;

const limitsFields = (thread: Thread): { readonly [name: string]: Field } => ({
  minor_min_mm: thread.limits.min,
  minor_max_mm: thread.limits.max,
  limits_source: thread.limits.source,
  limits_confirmed: thread.limits.confirmed,
});

const engagementFields = (verdict: TapDrillVerdict): { readonly [name: string]: Field } => ({
  engagement: verdict.engagement.map(({ percent: share, basis }) => ({ engagement_percent: share, basis })),
});

const tap: Topic = {
  name: 'tap',
  summary: 'the drill before a tap: the standard one, one to judge, or one for a wanted engagement',
  flags: [
    THREAD,
    { name: 'drill', value: 'LENGTH', meaning: 'a drill to judge by the published limits' },
    { name: 'engagement', value: 'PERCENT', meaning: 'wanted share of the thread depth, such as 75' },
    {
      name: 'basis',
      value: 'BASIS',
      meaning: 'with --engagement: 5H/8 (internal depth, when left out) or 3H/4 (external depth)',
    },
  ],
  needs: [['thread']],
  example: 'tap --thread M6 --engagement 75',
  run: (asked) =>
    andThen(read(asked, 'thread', parseThread), (thread) => {
      if (asked.given.has('engagement')) return engagementAnswer(asked, thread);
      if (asked.given.has('drill')) return judgedAnswer(asked, thread);
      return standardAnswer(asked, thread);
    }),
};

const standardAnswer = (asked: Asked, thread: Thread): Result<TopicAnswer> =>
  andThen(judgeTapDrill(thread, thread.tapDrill.diameter), (verdict) =>
    answer({
      text: `${thread.name}: drill ${sayTapDrill(thread.tapDrill.diameter, thread.tapDrill.name, asked)}`,
      working: [
        `minor diameter ${formatLimits(thread.limits, asked.unit)}${thread.limits.confirmed ? '' : ', common practice'}`,
        `engagement ${formatEngagement(verdict.engagement)}`,
        `drill: ${thread.tapDrill.source}${thread.tapDrill.confirmed ? '' : ' (common practice)'}`,
      ],
      fields: {
        tap_drill_mm: thread.tapDrill.diameter,
        tap_drill: thread.tapDrill.name,
        thread: thread.name,
        ...limitsFields(thread),
        ...engagementFields(verdict),
        source: thread.tapDrill.source,
        confirmed: thread.tapDrill.confirmed,
      },
    }),
  );

const sayTapDrill = (mm: Mm, name: string, asked: Asked): string =>
  name === sayLength(mm, asked.unit) ? sayBoth(mm, asked.unit) : `${name} (${sayLength(mm, asked.unit)})`;

const judgedAnswer = (asked: Asked, thread: Thread): Result<TopicAnswer> =>
  andThen(read(asked, 'drill', diameter), (tried) =>
    andThen(judgeOrRefuse(thread, tried, asked.unit), (verdict) =>
      answer({
        text: `${drillName(tried)} for ${thread.name}: ${VERDICTS[verdict.kind]}`,
        working: [
          `minor diameter ${formatLimits(thread.limits, asked.unit)}`,
          `engagement ${formatEngagement(verdict.engagement)}`,
        ],
        fields: {
          drill_mm: tried,
          verdict: verdict.kind,
          thread: thread.name,
          ...limitsFields(thread),
          ...engagementFields(verdict),
          standard_tap_drill_mm: thread.tapDrill.diameter,
        },
      }),
    ),
  );

const VERDICTS: Readonly<Record<TapDrillVerdict['kind'], string>> = {
  within: 'within the published limits',
  usual: 'a hair outside the published limits, but a drill of the usual charts',
  'above-maximum': 'above the published maximum: too little thread by the standard',
  'below-minimum': 'below the published minimum: the tap would cut its core and is likely to break',
};

const engagementAnswer = (asked: Asked, thread: Thread): Result<TopicAnswer> =>
  withAll(
    {
      wanted: read(asked, 'engagement', percent),
      basis: readOr(asked, 'basis', oneOf(BASES), basesOf(thread.form)[0]),
    },
    ({ wanted, basis }) => {
      if (!basesOf(thread.form).includes(basis)) {
        return refuse({
          what: '--basis',
          found: basis,
          allowed: basesOf(thread.form).join(', '),
          remedy: `choose a basis of the form of ${thread.name}`,
        });
      }
      return andThen(holeForEngagement(thread, wanted, basis), (hole) =>
        answerForHole(asked, thread, { wanted, basis, hole }),
      );
    },
  );

interface WantedHole {
  readonly wanted: number;
  readonly basis: (typeof BASES)[number];
  readonly hole: Mm;
}

function answerForHole(asked: Asked, thread: Thread, { wanted, basis, hole }: WantedHole): Result<TopicAnswer> {
  const { min, max } = thread.limits;
  const place = hole < min - 1e-9 ? 'below' : hole > max + 1e-9 ? 'above' : 'within';
  const limit =
    place === 'within'
      ? `within the limits ${formatLimits(thread.limits, asked.unit)}`
      : `lies ${place} the ${place === 'above' ? 'maximum' : 'minimum'} ${sayLength(place === 'above' ? max : min, asked.unit)} (${thread.limits.source})`;
  const warning =
    place === 'above'
      ? ['too little thread by the standard']
      : place === 'below'
        ? ['do not drill it: the tap would cut its core and is likely to break']
        : [];
  return answer({
    text: `${thread.name} at ${sayNumber(wanted)} % of ${basis}: hole ${sayBoth(hole, asked.unit)}; ${limit}`,
    working: [
      ...warning,
      `the standard drill is ${thread.tapDrill.name}; the published limits judge, the percentage is a note`,
    ],
    fields: {
      tap_drill_mm: hole,
      engagement_percent: wanted,
      basis,
      thread: thread.name,
      within_limits: place === 'within',
      limits_verdict: place,
      note: limit,
      ...limitsFields(thread),
      standard_tap_drill_mm: thread.tapDrill.diameter,
    },
  });
}

const clearance: Topic = {
  name: 'clearance',
  summary: 'holes that a screw passes through',
  flags: [THREAD],
  needs: [['thread']],
  example: 'clearance --thread M12',
  run: (asked) =>
    andThen(read(asked, 'thread', parseThread), (thread) =>
      andThen(clearanceHoles(thread), ({ holes, source, confirmed }) =>
        answer({
          text: `${thread.name}: ${holes.map((hole) => `${hole.fit} ${sayTapDrill(hole.diameter, hole.name, asked)}`).join(', ')}`,
          working: [`source: ${source}${confirmed ? '' : ' (not confirmed: from memory or common practice)'}`],
          fields: {
            ...Object.fromEntries(holes.map((hole) => [`${hole.fit}_mm`, hole.diameter])),
            thread: thread.name,
            source,
            confirmed,
          },
        }),
      ),
    ),
};

const thread: Topic = {
  name: 'thread',
  summary: 'diameters and pitch of a thread',
  flags: [THREAD],
  needs: [['thread']],
  example: 'thread --thread "1/4-20 UNC"',
  run: (asked) =>
    andThen(read(asked, 'thread', parseThread), (found) =>
      andThen(threadGeometry(found.form, found.major, found.pitch), (geometry) =>
        answer({
          text: `${found.name}: major ${sayLength(found.major, asked.unit)}, pitch ${sayLength(found.pitch, asked.unit)} (${formatTrimmed(25.4 / found.pitch, 2)} an inch), pitch diameter ${sayLength(geometry.pitchDiameter, asked.unit)}, minor ${sayLength(geometry.minor, asked.unit)}`,
          working: [`internal minor ${formatLimits(found.limits, asked.unit)}; tap drill ${found.tapDrill.name}`],
          fields: {
            thread: found.name,
            series: found.series,
            major_mm: found.major,
            pitch_mm: found.pitch,
            threads_per_inch: Number(formatTrimmed(1 / mmToInches(found.pitch), 3)),
            pitch_diameter_mm: geometry.pitchDiameter,
            minor_mm: geometry.minor,
            thread_depth_mm: geometry.depth,
            ...(geometry.externalRoot === undefined ? {} : { external_root_mm: geometry.externalRoot }),
            ...limitsFields(found),
            tap_drill_mm: found.tapDrill.diameter,
          },
        }),
      ),
    ),
};

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

const tapTurns: Topic = {
  name: 'tap-turns',
  summary: 'turns of the tap and the depth to drill for a blind or through thread',
  flags: [
    THREAD,
    { name: 'full-thread', value: 'LENGTH', meaning: 'blind: length of good thread from the face' },
    { name: 'through', value: 'LENGTH', meaning: 'through: thickness of the part' },
    ...LEAD_FLAGS,
    { name: 'clearance', value: 'LENGTH', meaning: 'blind: room below the tap; one pitch when left out' },
  ],
  needs: [['thread'], ['full-thread', 'through']],
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

const REVERSES = ['at once', 'after stopping', 'never'] as const;

const powerTap: Topic = {
  name: 'power-tap',
  summary: 'whether a thread can be tapped under power: how far the tap runs on while the spindle stops',
  flags: [
    THREAD,
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
        stoppingTime: readOr(asked, 'stops-in', parseDuration, USUAL_STOPPING_TIME),
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

export const threadTopics: readonly Topic[] = [tap, clearance, thread, tapTurns, powerTap];
