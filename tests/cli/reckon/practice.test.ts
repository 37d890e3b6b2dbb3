import { describe, expect, it } from 'vitest';
import { ask, askJson } from './ask.ts';

describe('what a practitioner is told beside the number', () => {
  it('a cutting speed far above the range of the material is asked whether it is ft/min', () => {
    // Mild steel: 80 to 110 ft/min (US Navy training course 14345), 33.5 m/min at most.
    const mixed = ask('speed --cutting-speed "100 m/min" --material "mild steel" --diameter "10 mm"').out;
    expect(mixed).toContain('3 times the high end: is it ft/min, written as m/min?');
    const sound = ask('speed --cutting-speed "100 ft/min" --material "mild steel" --diameter "10 mm"').out;
    expect(sound).toContain('970 rpm');
    expect(sound).not.toContain('is it ft/min');
  });

  it('a drill in brass, or opening a hole only slightly smaller, grabs (common practice)', () => {
    const brass = ask('drill --diameter "10 mm" --material brass --hole "9 mm" --through "6 mm"').out;
    expect(brass).toContain('dull the lips to no rake');
    expect(brass).toContain('grabs most');
    expect(brass.match(/common practice/gu)).toHaveLength(2);
    expect(askJson('drill --diameter "10 mm" --material brass')).toMatchObject({ grabs: ['brass'] });
    expect(askJson('drill --diameter "8 mm" --through "1.5 mm"')).toMatchObject({ grabs: ['thin stock'] });
    expect(ask('drill --diameter "10 mm" --hole "11 mm"')).toMatchObject({ code: 1 });
  });

  it('a strip bows by some millimetres in 300 mm: cut to length before milling (common practice)', () => {
    const { out } = ask('bow --bow "3 mm" --over "300 mm" --length "60 mm"');
    expect(out).toContain('cut to length, then mill (common practice)');
    expect(ask('bow --bow "60 mm" --over "300 mm" --length "60 mm"').err).toContain('at most 30 mm');
  });

  it('a drill cuts over its size, and the tap drill says whether the hole is still right (common practice)', () => {
    expect(ask('tap --thread M6').out).toContain('probably 5.095 mm, within the limits (common practice)');
    expect(ask('tap --thread M6 --drill "5.1 mm"').out).toContain('above the maximum (common practice)');
  });

  it('a deep hole says how much slower and finer, in words and numbers', () => {
    // Drilling reference guide: 5 d, 30 % slower, 20 % finer.
    const line = 'feed --diameter "3 mm" --speed 1500 --travel "15 mm"';
    expect(ask(line).out).toContain('5 diameters deep: 70 % of the speed and 80 % of the feed');
    expect(ask(line).out).toContain('clear the chips 2 times: 9 mm first, then 3 mm at a time');
    expect(askJson(line)).toMatchObject({ deep_hole_speed_percent: 70, first_feed_mm: 9, next_feed_mm: 3 });
    expect(ask('feed --diameter "3 mm" --speed 1500 --travel "9 mm"').out).not.toContain('deep');
  });

  it('a mill names what its feed was taken for, in either tool material', () => {
    expect(ask('feed --diameter "10 mm" --cut mill').out).toContain('HSS mill of 2 teeth in mild steel');
    const carbide = ask('feed --diameter "10 mm" --cut mill --tool carbide').out;
    expect(carbide).toContain('0.05 mm to 0.08 mm a tooth');
    expect(carbide).toContain('wants a rigid machine');
  });

  it('a countersink of another angle than the head is said', () => {
    expect(ask('countersink --head "ISO 7046" --screw M4 --angle 82').out).toContain(
      'the head has 90 deg, this tool 82',
    );
    expect(ask('countersink --head "ISO 7046" --screw M4').out).not.toContain('this tool');
  });

  it('the kerf of a named saw, its wide end, with where it comes from', () => {
    const line = 'blanks --bar "1000 mm" --blank "45 mm" --saw "cold saw"';
    expect(askJson(line)).toMatchObject({ kerf_mm: 3.2, blanks: 20 });
    expect(ask(line).out).toContain('a cold saw cuts 2.4 mm to 3.2 mm wide (a cutting guide');
    expect(ask('bars --bars 1000 --blanks "2 x 100 mm" --saw hacksaw').out).toContain('from memory');
    expect(ask('blanks --bar 1000 --blank 45 --saw laser').err).toContain('cold saw');
  });

  it('common practice is said once, not twice', () => {
    for (const line of [
      'speed --material brass --cut tap --diameter "3 mm"',
      'speed --material "mild steel" --cut mill --diameter "10 mm"',
      'feed --diameter "10 mm" --cut ream',
      'tap --thread "1/4 x 40 ME"',
      'clearance --thread "4 BA"',
      'clearance --thread "5/8-11 UNC"',
    ]) {
      expect(ask(line).out).not.toMatch(/common practice[:)]*,? \(?common practice/u);
      expect(ask(line).out).toMatch(/common practice|from memory/u);
    }
  });
});

describe('distances to the sides', () => {
  const line = 'distance --points "10,-5; 90,-20" --sides 0,100,-40,0';
  it('from each point to each side, and the least wall that a hole leaves', () => {
    expect(ask(line).out).toContain('point 1: left 10 mm, right 90 mm, front 35 mm, rear 5 mm');
    expect(askJson(line)).toMatchObject({ least_to_side_mm: 5 });
    expect(askJson(`${line} --diameters 6`)).toMatchObject({ least_to_side_mm: 2 });
    expect(ask('distance --points "10,-5" --sides 0,100,-40,0').out).toContain('nearest side 5 mm');
  });

  it('holes that run into each other are said to', () => {
    expect(ask('distance --points "0,0; 3,4" --diameters 8').out).toContain('the holes run into each other by 3 mm');
  });

  it.each(['0,100', '100,0,-40,0', '0,100,0,-40', '0,100,-40,0,5'])('sides %s are refused', (sides) => {
    expect(ask(`distance --points "10,-5" --sides ${sides}`).err).toContain('left, right, front, rear');
  });
});

describe('units and words', () => {
  it('a BA thread is metric with or without its space, an inch series is not', () => {
    expect(ask('tap --thread 4BA').out).toContain('drill 3 mm');
    expect(ask('tap --thread "4 B.A."').out).toContain('2.81 to 3.058 mm');
    expect(ask('tap --thread 1/4-20UNC').out).toContain('.196 to .207 in');
  });

  it('an inch dial answers in inches, and says which way it counts', () => {
    const { out } = ask('dial --move "1.375 in" --per-turn ".100 in" --divisions 100');
    expect(out).toContain('one division is .0010 in');
    expect(out).toContain('counts up');
    expect(ask('dial --move -1 --per-turn 2.5 --divisions 125').out).toContain('counts down');
  });

  it('a stack that is longer than the bar is refused as the stack, a stopping time of 0 too', () => {
    expect(ask('sine --centres 100 --stack 150').err).toContain(
      'stack 150 mm: allowed is from 0 mm, at most 86.603 mm',
    );
    expect(ask('power-tap --thread M6 --speed 90 --stops-in "0 s"').err).toContain(
      'stopping time 0 s: allowed is above 0 s',
    );
  });

  it('a scrap rate is refused in percent, as it was given', () => {
    expect(ask('spares --good 40 --scrap 100').err).toContain('scrap rate 100 %: allowed is from 0 %, at most 90 %');
  });

  it('an unknown thread is quoted as it was written, and pitches are offered in order', () => {
    expect(ask('tap --thread M9').err).toContain('--thread "M9"');
    expect(ask('tap --thread M6x0.9').err).toContain(
      'one of 0.35, 0.4, 0.45, 0.5, 0.6, 0.7, 0.75, 0.8, 1, 1.25, 1.5, 1.75',
    );
  });

  it('a link of a stack may be written with a plus-minus sign', () => {
    expect(askJson('stack --links "20±0.2, -5 +/- 0.1"')).toMatchObject({
      nominal_mm: 15,
      worst_case_plus_minus_mm: 0.3,
    });
  });
});
