/** The topic that turns one unit into another. */
import { drillName } from '../../shop/drill-sizes.ts';
import { parseCuttingSpeed } from '../../shop/parse-quantity.ts';
import { andThen, answer } from '../../shop/refusal.ts';
import { asFeetPerMinute, mmToInches } from '../../shop/units.ts';
import { angle, signedLength } from './readers.ts';
import { read, type Topic } from './topic.ts';
import { sayNumber } from './words.ts';

const convert: Topic = {
  name: 'convert',
  summary: 'mm and inch, number and letter drills, m/min and ft/min, degrees and minutes',
  flags: [
    { name: 'length', value: 'LENGTH', meaning: '"23/64 in", "no. 7", "letter F", 12.7' },
    { name: 'cutting-speed', value: 'SPEED', meaning: '"30 m/min" or "100 ft/min"' },
    { name: 'angle', value: 'ANGLE', meaning: '"23 deg 41 min" or 23.6833' },
  ],
  needs: [['length', 'cutting-speed', 'angle']],
  apart: [['length', 'cutting-speed', 'angle']],
  example: 'convert --length "no. 7"',
  run: (asked) => {
    if (asked.given.has('length')) {
      return andThen(read(asked, 'length', signedLength), (mm) =>
        answer({
          text: `${sayNumber(mm, 4)} mm = ${sayNumber(mmToInches(mm), 6)} in`,
          working: ['1 in is 25.4 mm exactly', ...(mm > 0 && mm <= 25.4 ? [`as a drill: ${drillName(mm)}`] : [])],
          fields: { length_mm: mm, length_in: mmToInches(mm) },
        }),
      );
    }
    if (asked.given.has('cutting-speed')) {
      return andThen(read(asked, 'cutting-speed', parseCuttingSpeed), (speed) =>
        answer({
          text: `${sayNumber(speed)} m/min = ${sayNumber(asFeetPerMinute(speed), 1)} ft/min`,
          working: ['1 ft is 0.3048 m exactly'],
          fields: { cutting_speed_m_per_min: speed, cutting_speed_ft_per_min: asFeetPerMinute(speed) },
        }),
      );
    }
    return andThen(read(asked, 'angle', angle), (found) => {
      const minutes = Math.abs(found) * 60;
      const whole = Math.floor(minutes / 60 + 1e-9);
      return answer({
        text: `${sayNumber(found, 4)} deg = ${found < 0 ? '-' : ''}${whole} deg ${sayNumber(Math.max(0, minutes - whole * 60), 2)} min`,
        working: ['60 minutes of arc in a degree'],
        fields: { angle_deg: found, angle_arcmin: found * 60 },
      });
    });
  },
};

export const convertTopics: readonly Topic[] = [convert];
