/** The topic of the hole before a tap. */
import { drillName } from '../../shop/drill-sizes.ts';
import { probableHole } from '../../shop/drilled-size.ts';
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
import { basesOf, holeForEngagement, type Thread } from '../../shop/threads.ts';
import { diameter, oneOf, percent } from './readers.ts';
import { fromMemory, limitsFields, sayTapDrill, THREAD_FLAG } from './thread-words.ts';
import { type Asked, type Field, read, readOr, type Topic, type TopicAnswer, withAll } from './topic.ts';
import { sayBoth, sayLength, sayNumber } from './words.ts';

const BASES = ['5H/8', '3H/4', 'Whitworth depth', 'BA depth'] as const;

const engagementFields = (verdict: TapDrillVerdict): { readonly [name: string]: Field } => ({
  engagement: verdict.engagement.map(({ percent: share, basis }) => ({ engagement_percent: share, basis })),
});

export const tap: Topic = {
  name: 'tap',
  summary: 'the drill before a tap: the standard one, one to judge, or one for a wanted engagement',
  flags: [
    THREAD_FLAG,
    { name: 'drill', value: 'LENGTH', meaning: 'a drill to judge by the published limits' },
    { name: 'engagement', value: 'PERCENT', meaning: 'wanted share of the thread depth, such as 75' },
    {
      name: 'basis',
      value: 'BASIS',
      meaning: 'with --engagement: 5H/8 (internal depth, when left out) or 3H/4 (external depth)',
      with: ['engagement'],
    },
  ],
  needs: [['thread']],
  apart: [['drill', 'engagement']],
  example: 'tap --thread M6 --engagement 75',
  run: (asked) =>
    andThen(read(asked, 'thread', parseThread), (thread) => {
      if (asked.given.has('engagement')) return engagementAnswer(asked, thread);
      if (asked.given.has('drill')) return judgedAnswer(asked, thread);
      return standardAnswer(asked, thread);
    }),
};

/** A drill cuts over its size: what hole it probably makes, and whether that still lies within the limits. */
function sayProbableHole(asked: Asked, thread: Thread, drill: Mm): readonly string[] {
  const hole = probableHole(drill);
  if (!hole.ok) return [];
  const place = hole.value > thread.limits.max ? 'above the maximum' : 'within the limits';
  return [`a drill cuts over its size: probably ${sayLength(hole.value, asked.unit)}, ${place} (common practice)`];
}

const standardAnswer = (asked: Asked, thread: Thread): Result<TopicAnswer> =>
  andThen(judgeTapDrill(thread, thread.tapDrill.diameter), (verdict) =>
    answer({
      text: `${thread.name}: drill ${sayTapDrill(thread.tapDrill.diameter, thread.tapDrill.name, asked)}`,
      working: [
        `minor diameter ${formatLimits(thread.limits, asked.unit)}${fromMemory(thread.limits)}`,
        `engagement ${formatEngagement(verdict.engagement)}`,
        `drill: ${thread.tapDrill.source}${fromMemory(thread.tapDrill)}`,
        ...sayProbableHole(asked, thread, thread.tapDrill.diameter),
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

const judgedAnswer = (asked: Asked, thread: Thread): Result<TopicAnswer> =>
  andThen(read(asked, 'drill', diameter), (tried) =>
    andThen(judgeOrRefuse(thread, tried, asked.unit), (verdict) =>
      answer({
        text: `${drillName(tried)} for ${thread.name}: ${VERDICTS[verdict.kind]}`,
        working: [
          `minor diameter ${formatLimits(thread.limits, asked.unit)}${fromMemory(thread.limits)}`,
          `engagement ${formatEngagement(verdict.engagement)}`,
          ...sayProbableHole(asked, thread, tried),
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
