/** Topics about threads: clearance holes and sizes. */
import { clearanceHoles } from '../../shop/clearance-holes.ts';
import { andThen, answer } from '../../shop/refusal.ts';
import { formatLimits } from '../../shop/tap-drills.ts';
import { parseThread } from '../../shop/thread-names.ts';
import { threadGeometry } from '../../shop/threads.ts';
import { formatTrimmed, MM_PER_INCH, mmToInches } from '../../shop/units.ts';
import { fromMemory, limitsFields, sayTapDrill, THREAD_FLAG } from './thread-words.ts';
import { read, type Topic } from './topic.ts';
import { sayLength } from './words.ts';
export const clearance: Topic = {
  name: 'clearance',
  summary: 'holes that a screw passes through',
  flags: [THREAD_FLAG],
  needs: [['thread']],
  example: 'clearance --thread M12',
  run: (asked) =>
    andThen(read(asked, 'thread', parseThread), (thread) =>
      andThen(clearanceHoles(thread), ({ holes, source, confirmed }) =>
        answer({
          text: `${thread.name}: ${holes.map((hole) => `${hole.fit} ${sayTapDrill(hole.diameter, hole.name, asked)}`).join(', ')}`,
          working: [`source: ${source}${fromMemory({ source, confirmed })}`],
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

export const thread: Topic = {
  name: 'thread',
  summary: 'diameters and pitch of a thread',
  flags: [THREAD_FLAG],
  needs: [['thread']],
  example: 'thread --thread "1/4-20 UNC"',
  run: (asked) =>
    andThen(read(asked, 'thread', parseThread), (found) =>
      andThen(threadGeometry(found.form, found.major, found.pitch), (geometry) =>
        answer({
          text: `${found.name}: major ${sayLength(found.major, asked.unit)}, pitch ${sayLength(found.pitch, asked.unit)} (${formatTrimmed(MM_PER_INCH / found.pitch, 2)} an inch), pitch diameter ${sayLength(geometry.pitchDiameter, asked.unit)}, minor ${sayLength(geometry.minor, asked.unit)}`,
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
