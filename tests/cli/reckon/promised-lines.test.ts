import { describe, expect, it } from 'vitest';
import { ask, askJson } from './ask.ts';

// Lines that must go on working as written, with these field names at the top level of the JSON.
describe('promised lines of reckon', () => {
  it('speed from cutting speed and diameter', () => {
    expect(askJson('speed --cutting-speed "30 m/min" --diameter "10 mm"')).toMatchObject({
      format: 1,
      topic: 'speed',
      spindle_speed_rpm: 954.93,
    });
  });

  it('speed from a material, chosen among the machine speeds and never above the computed', () => {
    const found = askJson('speed --material "mild steel" --diameter "1/4 in" --speeds 90,150,240,400,680,1100');
    expect(found['chosen_speed_rpm']).toBe(1100);
    expect(found['spindle_speed_rpm']).toBeGreaterThanOrEqual(1100);
    expect(found['starting_value']).toBe(true);
    expect(ask('speed --material "mild steel" --diameter "1/4 in"').out).toContain('starting value');
  });

  it('tap drill for a wanted engagement, basis named, said to lie above the 6H maximum', () => {
    const found = askJson('tap --thread M6 --engagement 75');
    expect(found).toMatchObject({ tap_drill_mm: 5.188, basis: '5H/8', within_limits: false, minor_max_mm: 5.153 });
    expect(found['note']).toContain('above the maximum 5.153 mm (ISO 965-1, 6H)');
  });

  it('the standard tap drill with its limits and engagement on both bases', () => {
    // M6 x 1 in 5.0 mm: 1 / 1.082532 and 1 / 1.299038 (ISO 68-1; shop convention).
    expect(askJson('tap --thread M6')).toMatchObject({
      tap_drill_mm: 5,
      minor_min_mm: 4.917,
      minor_max_mm: 5.153,
      engagement: [
        { engagement_percent: 92.38, basis: '5H/8' },
        { engagement_percent: 76.98, basis: '3H/4' },
      ],
    });
  });

  it('clearance holes of ISO 273', () => {
    expect(askJson('clearance --thread M12')).toMatchObject({ fine_mm: 13, medium_mm: 13.5, coarse_mm: 14.5 });
  });

  it('drill through', () => {
    expect(askJson('drill --diameter "10 mm" --angle 118 --through "6 mm"')).toMatchObject({
      point_length_mm: 3.004,
      travel_mm: 10.004,
    });
  });

  it('countersink depth with a flat tip', () => {
    expect(askJson('countersink --top "8 mm" --angle 90 --tip "1 mm"')).toMatchObject({ depth_mm: 3.5 });
  });

  it('points on a circle', () => {
    const found = askJson('circle --holes 6 --diameter "40 mm" --start 0');
    expect(found['points']).toEqual([
      { x_mm: 20, y_mm: 0 },
      { x_mm: 10, y_mm: 17.321 },
      { x_mm: -10, y_mm: 17.321 },
      { x_mm: -20, y_mm: 0 },
      { x_mm: -10, y_mm: -17.321 },
      { x_mm: 10, y_mm: -17.321 },
    ]);
  });

  it('dial turns and divisions', () => {
    expect(askJson('dial --move "12.34 mm" --per-turn "2.5 mm" --divisions 125')).toMatchObject({
      turns: 4,
      divisions: 117,
    });
  });

  it('blanks from a bar', () => {
    // (1000 + 1.3) / 46.3 = 21.6; 1000 - 21 x 46.3 = 27.7.
    expect(askJson('blanks --bar "1000 mm" --blank "45 mm" --kerf "1.3 mm"')).toMatchObject({
      blanks: 21,
      offcut_mm: 27.7,
    });
  });

  it('spares', () => {
    // Binomial: P(40 or more good of 43) = .8334, of 44 = .9325 at 5 % scrap.
    expect(askJson('spares --good 40 --scrap 5% --sure 90%')).toMatchObject({
      start: 44,
      chance_percent: 93.25,
      chance_one_fewer_percent: 83.34,
    });
  });

  it('fit', () => {
    expect(askJson('fit --size "20 mm" --zone H7')).toMatchObject({ lower_um: 0, upper_um: 21 });
  });

  it('tolerance', () => {
    expect(askJson('tolerance --size "30 mm" --class medium')).toMatchObject({ plus_minus_mm: 0.2 });
  });
});
