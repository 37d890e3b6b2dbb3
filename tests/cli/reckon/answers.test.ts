import { describe, expect, it } from 'vitest';
import { ask, askJson } from './ask.ts';

describe('speeds and feeds', () => {
  it('says when even the slowest speed is too fast, and chooses none', () => {
    // 2.11 times: 200 / 95.
    const line = 'speed --cutting-speed "30 m/min" --diameter "100.5 mm" --speeds 200,350,500';
    expect(ask(line).out).toContain('the slowest, 200 rpm, is 2.1 times the 95 wanted');
    expect(askJson(line)).toMatchObject({ chosen_speed_rpm: null, slowest_rpm: 200 });
  });

  it('says when the fastest speed is slower than the tool would take', () => {
    expect(ask('speed --cutting-speed "200 ft/min" --diameter "no. 29" --speeds "200 to 2700"').out).toContain(
      'set 2700 rpm, the fastest there is; the tool would take 5617',
    );
  });

  it('a tap takes the slowest speed unless the spindle reverses at once', () => {
    const line = 'speed --material brass --cut tap --diameter "6 mm" --speeds 90,150,400';
    expect(askJson(line)['chosen_speed_rpm']).toBe(90);
    expect(askJson(`${line} --reverses "at once"`)['chosen_speed_rpm']).toBe(400);
    expect(ask(line).out).toContain('the slowest: the spindle runs on while it stops');
  });

  it('turns a spindle speed back into a cutting speed', () => {
    // pi x 13 x 1500 / 1000.
    expect(askJson('speed --rpm 1500 --diameter "13 mm"')).toMatchObject({ cutting_speed_m_per_min: 61.26 });
  });

  it('a cutting speed without its unit is refused, for m/min and ft/min differ by 3.3 times', () => {
    const { code, err } = ask('speed --cutting-speed 30 --diameter "10 mm"');
    expect(code).toBe(1);
    expect(err).toContain('m/min or ft/min');
  });

  it('an unknown material is refused and the nearest known named', () => {
    const { code, err } = ask('speed --material alluminium --diameter "10 mm"');
    expect(code).toBe(1);
    expect(err).toMatch(/--material "alluminium".*nearest known: aluminium/);
  });

  it('a mill feeds by the tooth, times its teeth, and a reamer at twice the feed of a drill', () => {
    const mill = askJson(
      'feed --diameter "10 mm" --cut mill --material aluminium --teeth 4 --speed 1000 --travel "50 mm"',
    );
    expect(mill['feed_low_mm_per_min']).toBeCloseTo(4000 * 0.058, 0);
    expect(mill['quickest_s']).toBeLessThan(mill['slowest_s'] as number);
    const drill = askJson('feed --diameter "10 mm"')['feed_per_turn_low_mm'] as number;
    expect(askJson('feed --diameter "10 mm" --cut ream')['feed_per_turn_low_mm']).toBeCloseTo(2 * drill, 2);
    expect(ask('feed --diameter "10 mm" --cut ream').out).toContain('common practice');
  });

  it('reckons the time of a cut by the tooth too', () => {
    // 100 / (500 x 0.15) minutes, twice.
    expect(askJson('time --length "100 mm" --speed 500 --feed "0.15 mm/rev" --passes 2')['time_s']).toBe(160);
    expect(askJson('time --length "100 mm" --speed 900 --tooth-feed "0.025 mm/tooth" --teeth 4')['time_s']).toBe(66.67);
  });
});

describe('holes', () => {
  it('warns of thin stock', () => {
    const { out } = ask('drill --diameter "8 mm" --through "1.5 mm"');
    expect(out).toContain('thin stock');
  });

  it('says what floor a blind hole leaves, or that it breaks through', () => {
    // 20 - 15 - 3.605.
    expect(askJson('drill --diameter "12 mm" --depth "15 mm" --thickness "20 mm"')).toMatchObject({ floor_mm: 1.395 });
    expect(ask('drill --diameter "12 mm" --depth "17 mm" --thickness "20 mm"').out).toContain('breaks through');
    expect(askJson('drill --diameter "12 mm" --depth "15 mm"')).toMatchObject({ tip_depth_mm: 18.605 });
    expect(ask('drill --diameter "12 mm"').out).toContain('point 3.605 mm long');
  });

  it('a drill of 400 mm, a point of 0 or 180 degrees: refused with the range, never NaN', () => {
    for (const line of [
      'drill --diameter "400 mm"',
      'drill --diameter "10 mm" --angle 180',
      'drill --diameter "10 mm" --angle 0',
      'drill --diameter "0 mm"',
      'drill --diameter -5',
      'drill --diameter nan',
      'drill --diameter "10 kg"',
    ]) {
      const said = ask(line);
      expect(said).toMatchObject({ code: 1, out: '' });
      expect(said.err).toContain('allowed is');
      expect(said.err).toMatch(/--(diameter|angle)/);
    }
  });

  it('countersinks: the reverse, into a hole, and for a screw head', () => {
    expect(askJson('countersink --depth "3.5 mm" --tip "1 mm"')).toMatchObject({ top_mm: 8 });
    // ISO 10642 M5: sharp head 11.2, in a hole of 5.5: 2.85 from first contact.
    expect(askJson('countersink --head "ISO 10642" --screw M5 --hole "5.5 mm"')).toMatchObject({
      travel_mm: 2.85,
      top_mm: 11.2,
    });
    expect(askJson('countersink --head "ISO 10642" --screw M5 --below "0.2 mm"')).toMatchObject({ top_mm: 11.6 });
    expect(ask('countersink --head "DIN 963" --screw M4').out).toContain('withdrawn');
    expect(ask('countersink --head "ISO 10642"').code).toBe(1);
    expect(ask('countersink --head "ISO 1" --screw M5').err).toContain('ISO 10642');
  });

  it('counterbores: too small, too shallow, and an unknown screw', () => {
    expect(ask('counterbore --screw M3 --bore "5.5 mm"').out).toContain('too small: the head may measure 5.68 mm');
    expect(ask('counterbore --screw M3 --depth "2.5 mm"').out).toContain('too shallow: the head stands out by 0.5 mm');
    expect(ask('counterbore --screw M7').err).toContain('nearest known');
    expect(ask('counterbore --screw "no. 8"').out).toContain('common practice');
  });

  it('reaming: the drill to take, and one that leaves too much', () => {
    expect(askJson('ream --reamer "10 mm"')).toMatchObject({ drill_smallest_mm: 9.65, drill_largest_mm: 9.75 });
    expect(ask('ream --reamer "10 mm" --drill "9 mm"').out).toContain('too much: leaves 1 mm');
  });
});

describe('threads', () => {
  it('letter Q before 3/8 x 32 is refused: below the core, and the right drill named', () => {
    const { code, err } = ask('tap --thread "3/8 x 32 ME" --drill "letter Q"');
    expect(code).toBe(1);
    expect(err).toMatch(/letter Q.*use 8\.75 mm/);
  });

  it('a drill is judged by the published limits', () => {
    expect(askJson('tap --thread "no. 8-32 UNC" --drill "no. 29"')).toMatchObject({ verdict: 'within' });
    expect(askJson('tap --thread M6 --drill "5.3 mm"')).toMatchObject({ verdict: 'above-maximum' });
  });

  it('engagement on the other basis, within the limits; below them it says not to drill', () => {
    expect(askJson('tap --thread M6 --engagement 75 --basis 3H/4')).toMatchObject({
      tap_drill_mm: 5.026,
      within_limits: true,
    });
    expect(ask('tap --thread M6 --engagement 100 --basis 3H/4').out).toContain('do not drill it');
    expect(ask('tap --thread "4 BA" --engagement 75 --basis 3H/4').err).toContain('BA depth');
    expect(ask('tap --thread M6 --engagement 75 --basis half').err).toContain('5H/8');
  });

  it('an unknown thread names the nearest', () => {
    const { code, err } = ask('tap --thread M9');
    expect(code).toBe(1);
    expect(err).toMatch(/nearest known: M(8, M10|10, M8)/);
  });

  it('M8 drills 6.8; trade threads say that they are common practice', () => {
    expect(askJson('tap --thread M8')).toMatchObject({ tap_drill_mm: 6.8 });
    expect(ask('clearance --thread "4 BA"').out).toContain('common practice');
    expect(askJson('clearance --thread "1/4-20 UNC"')).toHaveProperty('normal_mm');
    expect(askJson('thread --thread "4 BA"')).not.toHaveProperty('external_root_mm');
  });

  it('turns of the tap through a part, by the form of its lead', () => {
    // (10 + 3) / 1 with the longest lead of form C.
    expect(askJson('tap-turns --thread M6 --through "10 mm" --form "form C"')).toMatchObject({
      turns: 13,
      lead_threads: 3,
    });
    expect(ask('tap-turns --thread M6 --through "10 mm" --lead many').err).toContain('0 to 20 threads');
    expect(askJson('tap-turns --thread M6 --full-thread "12 mm" --lead 3 --clearance "1 mm"')).toMatchObject({
      drilled_depth_mm: 16,
    });
  });

  it('tapping under power: runs too far, by hand, at once, and M3 in brass at 170 rpm is sound', () => {
    expect(ask('power-tap --thread M6 --speed 200 --stops-in "1.5 s" --run-out "3 mm"').out).toContain(
      'below 120 rpm it would fit',
    );
    expect(ask('power-tap --thread M6 --speed 200 --run-out 0').out).toContain('more than is left');
    expect(ask('power-tap --thread M6 --speed 600 --reverses never').out).toContain('tap by hand');
    expect(ask('power-tap --thread M6 --speed 600 --reverses "at once"').out).toContain('reverse at depth');
    // Common practice: on a spindle that does not reverse it is backed out by hand.
    expect(ask('power-tap --thread M3 --speed 170 --reverses never').out).toContain('back out by hand');
  });
});

describe('places', () => {
  it('part circles, clockwise, about a centre; one hole alone has no neighbour', () => {
    expect(askJson('circle --holes 3 --diameter 20 --arc 180 --centre 5,5 --direction clockwise')['points']).toEqual([
      { x_mm: 15, y_mm: 5 },
      { x_mm: 5, y_mm: -5 },
      { x_mm: -5, y_mm: 5 },
    ]);
    expect(askJson('circle --holes 1 --diameter 20')).not.toHaveProperty('chord_mm');
    expect(ask('circle --holes 3 --diameter 20 --direction sideways').err).toContain('anticlockwise, clockwise');
  });

  it('negative values need no equals sign, and inches answer in inches with both in the JSON', () => {
    expect(askJson('row --count 2 --pitch "1/2 in" --start "-1 in,-.5 in"')['points']).toEqual([
      { x_mm: -25.4, x_in: -1, y_mm: -12.7, y_in: -0.5 },
      { x_mm: -12.7, x_in: -0.5, y_mm: -12.7, y_in: -0.5 },
    ]);
    expect(ask('row --count 2 --pitch 1/2 --units mm').out).toContain('12.7 mm');
    expect(ask('row --count 2 --pitch .5 --units inch').out).toContain('.5000 in');
  });

  it('mirrors about Y, turns back, polar the other way round', () => {
    expect(askJson('mirror --points "10,5" --y 0')['points']).toEqual([{ x_mm: 10, y_mm: -5 }]);
    expect(askJson('polar --point "0,-3"')).toMatchObject({ radius_mm: 3, angle_deg: 270 });
    expect(ask('order --points "0,0; 5,5"').out).toContain('0 windings past');
    expect(askJson('distance --points "0,0; 30,40"')).toMatchObject({ distance_mm: 50 });
  });

  it('points that are none are refused by form', () => {
    expect(ask('mirror --points "10" --x 5').err).toContain('X,Y');
    expect(ask('mirror --points "10,a" --x 5')).toMatchObject({ code: 1 });
    expect(ask('distance --points "0,0"').err).toContain('two points');
    expect(ask('distance --points "0,0;1,1;2,2"')).toMatchObject({ code: 1 });
  });

  it('the order of many points is said not to be proven', () => {
    const many = Array.from({ length: 15 }, (_, index) => `${index * 3},${(index * 7) % 5}`).join(';');
    expect(ask(`order --points "${many}" --x growing`).out).toContain('not proven best');
  });
});

describe('handles and zero', () => {
  it('below zero the dial counts back', () => {
    expect(askJson('dial --move -0.5 --per-turn 2.5 --divisions 125')).toMatchObject({
      turns: 0,
      divisions: 25,
      side: 'below',
      scale_shows: 100,
    });
  });

  it('12 mm on a dial of .1 in: 4 turns and .07244 in', () => {
    expect(askJson('dial --move "12 mm" --per-turn ".1 in" --divisions 100')).toMatchObject({
      turns: 4,
      divisions: 72.5,
      remainder_in: 0.07244,
    });
  });

  it('zero in Y with a block, in front of the face', () => {
    const said = ask('zero --tip "6 mm" --side front --block "20 mm" --edge "100 mm"');
    expect(said.out).toContain('set Y to +77 mm at touch');
    expect(said.out).toContain('edge +100 mm, block -20 mm, half pin -3 mm');
    expect(ask('zero --tip ".2 in" --side rear').out).toContain('set Y to +.1000 in');
    expect(ask('zero --tip "6 mm" --side above').err).toContain('left, right, front, rear');
  });

  it('a sine bar the other way round', () => {
    expect(askJson('sine --centres "100 mm" --stack "21.644 mm"')['angle_deg']).toBeCloseTo(12.5, 3);
  });
});

describe('limits', () => {
  it('fits of a pair: clearance, transition, interference (ISO 286-2)', () => {
    expect(ask('fit --size "50 mm" --zone H7/p6').out).toContain('interference fit, interference 1 to 42 um');
    expect(ask('fit --size "25 mm" --zone H7/g6').out).toContain('clearance fit, clearance 7 to 41 um');
    expect(ask('fit --size "20 mm" --zone H7/k6').out).toContain('from 15 um of interference to 19 um of clearance');
    expect(ask('fit --size "20 mm" --zone z9').err).toContain('H, f, g, h, n, p');
  });

  it('radii and angles, with what is from memory named', () => {
    expect(askJson('tolerance --size 5 --class m --of radius')).toMatchObject({ plus_minus_mm: 0.5 });
    expect(askJson('tolerance --size 10 --class m --of angle')).toMatchObject({
      plus_minus_arcmin: 60,
      plus_minus_deg: 1,
    });
    expect(ask('tolerance --size 200 --class coarse --of angle').out).toContain('from memory');
  });

  it('a chain alone, and one that is not written with its tolerance', () => {
    expect(askJson('stack --links "50+-0.1, -20+-0.1"')).toMatchObject({
      nominal_mm: 30,
      worst_case_plus_minus_mm: 0.2,
    });
    expect(ask('stack --links "50, 20"').err).toContain('SIZE+-TOLERANCE');
  });
});

describe('stock and quantities', () => {
  it('bars of the worked batch: 26 a bar, 3 bars, 42.90 in left', () => {
    const line =
      'blanks --bar "72 in" --blank "2.5 in" --facing ".03 in" --kerf ".0625 in" --trim ".25 in" --grip "1.5 in" --needed 63';
    expect(askJson(line)).toMatchObject({ blanks: 26, bars: 3, on_last_bar: 11, left_on_last_bar_in: 42.9025 });
    expect(ask(line).out).toContain('3 bars for 63, 11 from the last, which leaves 42.9025 in');
  });

  it('a trailing cut when asked for', () => {
    expect(askJson('blanks --bar 304 --blank 100 --kerf 2')).toMatchObject({ blanks: 3 });
    expect(askJson('blanks --bar 304 --blank 100 --kerf 2 --trailing-cut yes')).toMatchObject({ blanks: 2 });
  });

  it('a cut list that falls short says by how many', () => {
    expect(ask('bars --bars "2 x 1000 mm" --blanks "5 x 480 mm"').out).toContain('short: 1 of 480 mm');
    expect(ask('bars --bars 1000 --blanks "3 x 480 mm" --keep "500 mm"').out).toContain('left 520 mm, keep it');
    expect(ask('bars --bars 1000 --blanks "0 x 480 mm"')).toMatchObject({ code: 1 });
    expect(ask('bars --bars 1000 --blanks "1200 mm"').err).toContain('at most 1000 mm');
  });

  it.each([
    ['--square 10', 0.785],
    ['--hexagon 17', 1.965],
    ['--flat "40 mm,10 mm"', 3.14],
    ['--round 20 --wall 2', 0.888],
  ])('mass of a metre of steel: %s', (section, kg) => {
    expect(askJson(`mass ${section} --length "1 m" --density 7850`)['mass_kg']).toBeCloseTo(kg, 3);
  });

  it('mass refuses what is not a section, a density or a material', () => {
    expect(ask('mass --flat 40 --length 100 --material brass').err).toContain('WIDTH,THICKNESS');
    expect(ask('mass --round 10 --length 100 --density heavy').err).toContain('kg/m3');
    expect(ask('mass --round 10 --length 100 --material bras').err).toContain('brass');
  });

  it('loads from a stated capacity, and pieces that do not fit at all', () => {
    expect(ask('loads --pieces 10 --a-load 4').out).toContain('3 loads: 1 of 4 and 2 of 3');
    expect(ask('loads --pieces 10 --opening 50 --jaws 100 --across 60 --along 20').out).toContain('not one piece fits');
  });

  it('facing: a cut that does not reach a piece, all clean, none to be saved', () => {
    const line = 'facing --measured "2.515 in, 2.560 in" --finished "2.5 in" --cut-at "2.53 in"';
    expect(askJson(line)).toMatchObject({ unclean_at_cut: [1], never: [] });
    expect(ask(line).out).toContain('piece 1 (2.5150 in) does not clean up');
    expect(ask('facing --measured 41 --finished 40 --faces 1 --cut-at 40.5').out).toContain('all clean up');
    expect(ask('facing --measured 39 --finished 40').out).toContain('no piece cleans up');
  });

  it('0.05 is refused as a scrap rate: a share or a percentage', () => {
    expect(ask('spares --good 40 --scrap 0.05')).toMatchObject({ code: 1 });
    expect(ask('spares --good 40 --scrap 5% --sure 100%').err).toContain('wanted certainty');
  });
});

describe('conversions', () => {
  it.each([
    // ASME B94.11M; arithmetic.
    ['--length "#7"', { length_mm: 5.1054, length_in: 0.201 }],
    ['--length "letter F"', { length_mm: 6.5278, length_in: 0.257 }],
    ['--length "23/64 in"', { length_in: 0.35938 }],
    ['--cutting-speed "100 ft/min"', { cutting_speed_m_per_min: 30.48 }],
    ['--angle "23 deg 41 min"', { angle_deg: 23.6833, angle_arcmin: 1421 }],
  ])('%s', (flags, fields) => {
    expect(askJson(`convert ${flags}`)).toMatchObject(fields);
  });

  it('degrees in words, negative too', () => {
    expect(ask('convert --angle 23.6833333').out).toContain('23 deg 41 min');
    expect(ask('convert --angle -12.5').out).toContain('-12 deg 30 min');
  });
});
