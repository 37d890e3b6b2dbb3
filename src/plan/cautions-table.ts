/**
 * Usual cautions by kind of work, in words of our own: reminders at the start of an operation. Not complete, not a risk
 * assessment, not instructions for any machine. Sources are named by key; `trade` is general practice from memory.
 */

/** Whom a caution protects. */
export type Concern = 'injury' | 'both' | 'part';

export interface CautionRow {
  readonly id: string;
  readonly text: string;
  readonly when: 'start' | 'first' | 'during' | 'each-piece' | 'end';
  readonly concerns: Concern;
  readonly sources: readonly CautionSource[];
}

/** Publishers of the sources, and what was seen of each. */
export const CAUTION_SOURCES = {
  'ccohs-mill':
    'Canadian Centre for Occupational Health and Safety (CCOHS): OSH Answers: Metalworking Machines - Milling Machines (read in a stored copy of the publisher page)',
  'ccohs-general':
    'CCOHS: OSH Answers: Metalworking Machines - General (read in a reprint by a US university department)',
  'ccohs-drill': 'CCOHS: OSH Answers: Metalworking Machines - Drill Presses (read in third-party reprints only)',
  'ccohs-saw':
    'CCOHS: OSH Answers: Metalworking Machines - metal (cold-cutting) saws (read in a reprint by a US university department)',
  'hse-press-2013':
    'Health and Safety Executive (HSE), Great Britain: Press release of 18 December 2013 on a drill entanglement (gloves at fixed drilling) (read in a stored copy of the publisher page)',
  'hse-faq':
    'HSE, Great Britain: Engineering - frequently asked questions (metalworking fluids; compressed air on swarf) (read in a stored copy of the publisher page, excerpt)',
  'hse-mwf':
    'HSE, Great Britain: Asthma: engineering worker; and leaflet INDG365, Working safely with metalworking fluids (first read in a stored copy; the leaflet read in a third-party reprint)',
  'osha-242b':
    'Occupational Safety and Health Administration (OSHA), USA: 29 CFR 1910.242(b), as quoted in the interpretation letter of 14 January 1994 (read in a stored copy of the publisher page, excerpt)',
  'mi-2640': 'State of Michigan, USA: Administrative Code R 408.12640 (Milling) (read in a stored copy)',
  'bghm-105':
    'Berufsgenossenschaft Holz und Metall (BGHM), Germany: BGHM-I 105, section 7 Bohrmaschinen (in German) (read in a stored copy on a legal-text site)',
  vbg: 'Verwaltungs-Berufsgenossenschaft (VBG), Germany: Staenderbohrmaschine, information sheet (in German) (read in a stored copy of the publisher page, excerpt)',
  umich:
    'University of Michigan, LSA instrument shop: Milling Machine Safety (read in a stored copy of the publisher page)',
  lsu: 'Louisiana State University, manufacturing facility: Drill Press Safety Rules; Milling Machine Safety Rules (read in a stored copy of the publisher page)',
  'pedestal-sheet':
    'not stated (safe-work sheet for a pedestal drill): Pedestal drill: task sequence, hazards, key processes (read in a third-party reprint; publisher not shown)',
  'wa-textbook': 'Open Washington Pressbooks: Introduction to Machining 1, chapter 7 (saws) (read in a stored copy)',
  'handbook-dub':
    'Drilling technology handbook chapter (author not shown in the copy): Drilling and associated cutting tool technology: near-zero helix or dubbed lips for brass (excerpt of a third-party copy)',
  trade: 'General trade practice, from memory (not looked up; treat as unverified)',
} as const;
export type CautionSource = keyof typeof CAUTION_SOURCES;

/** Shown wherever cautions are shown. */
export const DEFERRING_LINE =
  "Reminders only. Your machine's manual, your training and the rules where you work come first; where they differ, follow them.";

/** The cautions by what they belong to: a kind of work, a station, a moment or a material. */
export const CAUTION_TABLE = {
  general: [
    {
      id: 'g.eyes',
      text: 'Safety glasses on before the spindle starts, and for everyone near.',
      when: 'start',
      concerns: 'injury',
      sources: ['ccohs-mill', 'ccohs-drill', 'lsu'],
    },
    {
      id: 'g.gloves',
      text: 'No gloves, rings, cuffs, cords or loose hair near a turning spindle.',
      when: 'start',
      concerns: 'injury',
      sources: ['hse-press-2013', 'bghm-105', 'vbg'],
    },
    {
      id: 'g.stop',
      text: 'Know where the stop is; keep it within reach and clear of the pad.',
      when: 'start',
      concerns: 'injury',
      sources: ['ccohs-mill', 'ccohs-drill'],
    },
    {
      id: 'g.measure',
      text: 'Measure, reach in or adjust only when tool and work stand still.',
      when: 'during',
      concerns: 'injury',
      sources: ['mi-2640', 'ccohs-general', 'umich'],
    },
    {
      id: 'g.chips',
      text: 'Clear chips with a brush once it has stopped; never with fingers.',
      when: 'during',
      concerns: 'injury',
      sources: ['ccohs-mill', 'bghm-105', 'ccohs-general'],
    },
    {
      id: 'g.key',
      text: 'Chuck key, spanner and drift out of the machine before you start it.',
      when: 'start',
      concerns: 'injury',
      sources: ['ccohs-general', 'lsu'],
    },
    {
      id: 'g.guard',
      text: 'Guards and chip shield in place and working.',
      when: 'start',
      concerns: 'injury',
      sources: ['mi-2640', 'ccohs-mill', 'vbg'],
    },
    {
      id: 'g.stay',
      text: 'Stay at the machine while it turns; stop it before you walk off.',
      when: 'during',
      concerns: 'injury',
      sources: ['ccohs-mill', 'umich'],
    },
    {
      id: 'g.tired',
      text: 'Tired, hurried or distracted? Stop the spindle, then press pause.',
      when: 'during',
      concerns: 'injury',
      sources: ['trade'],
    },
    {
      id: 'g.odd',
      text: 'New noise, smell or shake: stop it and find out why first.',
      when: 'during',
      concerns: 'injury',
      sources: ['trade'],
    },
    {
      id: 'g.pedal',
      text: 'Keep the counting pedal apart from any pedal that starts a machine.',
      when: 'start',
      concerns: 'injury',
      sources: ['trade'],
    },
  ],
  'vice-setup': [
    {
      id: 'vs.bolt',
      text: 'Vice bolted down and square; work clamped before any table feed.',
      when: 'start',
      concerns: 'injury',
      sources: ['ccohs-mill', 'mi-2640'],
    },
    {
      id: 'vs.clear',
      text: 'Table wound well away from the cutter while you load and set up.',
      when: 'start',
      concerns: 'injury',
      sources: ['ccohs-mill'],
    },
    {
      id: 'vs.loose',
      text: 'Nothing loose on the table: spanners, parallels, gauges off.',
      when: 'end',
      concerns: 'injury',
      sources: ['ccohs-mill', 'umich', 'lsu'],
    },
    {
      id: 'vs.seat',
      text: 'Wipe jaws, parallels and stop; a chip under the work is a bad part.',
      when: 'each-piece',
      concerns: 'part',
      sources: ['trade'],
    },
    {
      id: 'vs.handle',
      text: 'Take the vice handle off before you start the spindle.',
      when: 'end',
      concerns: 'injury',
      sources: ['trade'],
    },
  ],
  'speed-change': [
    {
      id: 'sc.belt',
      text: 'Machine off and isolated, spindle standing, before the belt is moved.',
      when: 'start',
      concerns: 'injury',
      sources: ['pedestal-sheet', 'trade'],
    },
    {
      id: 'sc.lever',
      text: 'Machine off and isolated, spindle standing, before the lever is moved.',
      when: 'start',
      concerns: 'injury',
      sources: ['trade'],
    },
    {
      id: 'sc.knob',
      text: 'Hands clear of the spindle; knob at rest or running as its manual says.',
      when: 'start',
      concerns: 'injury',
      sources: ['trade'],
    },
    {
      id: 'sc.guard',
      text: 'Belt guard shut again before the spindle is started.',
      when: 'end',
      concerns: 'injury',
      sources: ['trade'],
    },
  ],
  'tool-change': [
    {
      id: 'tc.off',
      text: 'Isolate the power, or lock the start, before hands go to the tool.',
      when: 'start',
      concerns: 'injury',
      sources: ['ccohs-mill', 'lsu'],
    },
    {
      id: 'tc.cloth',
      text: 'Handle cutters with a cloth; edges cut even when standing still.',
      when: 'during',
      concerns: 'injury',
      sources: ['ccohs-mill', 'umich'],
    },
    {
      id: 'tc.torque',
      text: 'Never use the motor to loosen or tighten a nut or drawbar.',
      when: 'during',
      concerns: 'injury',
      sources: ['mi-2640', 'umich'],
    },
    {
      id: 'tc.check',
      text: 'Right tool, tight, turns true by hand, spanner off, speed set.',
      when: 'end',
      concerns: 'both',
      sources: ['lsu', 'ccohs-mill'],
    },
    {
      id: 'tc.zero',
      text: 'A new tool is a new length: set Z again before the first cut.',
      when: 'end',
      concerns: 'part',
      sources: ['trade'],
    },
  ],
  'edge-find': [
    {
      id: 'ef.speed',
      text: 'Wobbler edge finder: modest speed only (its maker gives the limit).',
      when: 'start',
      concerns: 'injury',
      sources: ['trade'],
    },
    {
      id: 'ef.half',
      text: 'Allow half the tip diameter, and the right sign, on each edge.',
      when: 'during',
      concerns: 'part',
      sources: ['trade'],
    },
    {
      id: 'ef.burr',
      text: 'Deburr and wipe the edge first: a burr moves the zero.',
      when: 'start',
      concerns: 'part',
      sources: ['trade'],
    },
    {
      id: 'ef.dir',
      text: 'Graduated handwheels: come up to the number from one side only.',
      when: 'during',
      concerns: 'part',
      sources: ['trade'],
    },
    {
      id: 'ef.proof',
      text: 'Prove the zero: go back to the edge and read it again.',
      when: 'end',
      concerns: 'part',
      sources: ['trade'],
    },
  ],
  'mill-face': [
    {
      id: 'mf.clamp',
      text: 'Every blank gripped: tap each one before you cut.',
      when: 'start',
      concerns: 'injury',
      sources: ['mi-2640', 'ccohs-mill'],
    },
    {
      id: 'mf.dir',
      text: 'Feed against the cutter unless your machine is built for the other.',
      when: 'start',
      concerns: 'injury',
      sources: ['lsu'],
    },
    {
      id: 'mf.hand',
      text: 'Hands, brush and rag away from the turning cutter.',
      when: 'during',
      concerns: 'injury',
      sources: ['ccohs-mill'],
    },
    {
      id: 'mf.stand',
      text: 'Stand out of line with the chips; fit the chip guard.',
      when: 'during',
      concerns: 'injury',
      sources: ['mi-2640'],
    },
    {
      id: 'mf.hot',
      text: 'Fresh blanks are hot and sharp: let them cool, then deburr.',
      when: 'end',
      concerns: 'injury',
      sources: ['trade'],
    },
  ],
  'mill-profile': [
    {
      id: 'mp.clamp',
      text: 'Work and cutter tight; lock the axes you are not feeding.',
      when: 'start',
      concerns: 'injury',
      sources: ['ccohs-mill', 'mi-2640'],
    },
    {
      id: 'mp.dir',
      text: 'Check spindle direction and feed direction before touching.',
      when: 'start',
      concerns: 'injury',
      sources: ['umich', 'lsu'],
    },
    {
      id: 'mp.dry',
      text: 'Wind through the whole move once, spindle off, to see it clears.',
      when: 'start',
      concerns: 'both',
      sources: ['lsu'],
    },
    {
      id: 'mp.hand',
      text: 'Hands, brush and rag away from the turning cutter.',
      when: 'during',
      concerns: 'injury',
      sources: ['ccohs-mill'],
    },
  ],
  'drill-mill': [
    {
      id: 'dm.clamp',
      text: 'Work clamped, with room under it for the drill to break through.',
      when: 'start',
      concerns: 'both',
      sources: ['lsu', 'ccohs-drill'],
    },
    {
      id: 'dm.speed',
      text: 'Set the speed for this drill and this metal before you start.',
      when: 'start',
      concerns: 'both',
      sources: ['lsu', 'ccohs-drill'],
    },
    {
      id: 'dm.peck',
      text: 'Back out often to clear the flutes; a stringy chip is a snare.',
      when: 'during',
      concerns: 'injury',
      sources: ['lsu', 'ccohs-general'],
    },
    {
      id: 'dm.through',
      text: 'Ease off as the point breaks through.',
      when: 'during',
      concerns: 'injury',
      sources: ['lsu', 'bghm-105'],
    },
    {
      id: 'dm.jam',
      text: 'Jammed? Stop the spindle first, then turn it back by hand.',
      when: 'during',
      concerns: 'injury',
      sources: ['lsu'],
    },
  ],
  'drill-pillar': [
    {
      id: 'dp.hold',
      text: 'Small parts never in the fingers: vice, clamp or stop, every time.',
      when: 'start',
      concerns: 'injury',
      sources: ['bghm-105', 'ccohs-drill', 'pedestal-sheet'],
    },
    {
      id: 'dp.gloves',
      text: 'Bare hands here, sleeves tight or rolled inwards.',
      when: 'start',
      concerns: 'injury',
      sources: ['bghm-105', 'hse-press-2013'],
    },
    {
      id: 'dp.belt',
      text: 'Power off before you move a belt to change the speed.',
      when: 'start',
      concerns: 'injury',
      sources: ['pedestal-sheet'],
    },
    {
      id: 'dp.change',
      text: 'Stop the spindle and let it run down before you swap the part.',
      when: 'each-piece',
      concerns: 'injury',
      sources: ['bghm-105'],
    },
    {
      id: 'dp.spin',
      text: 'If the part starts to spin, hit stop; do not grab it.',
      when: 'during',
      concerns: 'injury',
      sources: ['trade'],
    },
    {
      id: 'dp.through',
      text: 'Ease off as the point breaks through.',
      when: 'during',
      concerns: 'injury',
      sources: ['bghm-105', 'lsu'],
    },
  ],
  spot: [
    {
      id: 'sp.short',
      text: 'Short stiff tool, light touch; depth from the stop, not by eye.',
      when: 'start',
      concerns: 'part',
      sources: ['trade'],
    },
    {
      id: 'sp.clamp',
      text: 'Work clamped; spindle stopped before you move it by hand.',
      when: 'start',
      concerns: 'injury',
      sources: ['ccohs-drill', 'mi-2640'],
    },
  ],
  chamfer: [
    {
      id: 'ch.speed',
      text: 'Lower the speed: countersinks chatter when run like drills.',
      when: 'start',
      concerns: 'part',
      sources: ['trade'],
    },
    {
      id: 'ch.first',
      text: 'Measure the first one; a little depth is twice as much width.',
      when: 'first',
      concerns: 'part',
      sources: ['trade'],
    },
    {
      id: 'ch.clamp',
      text: 'Work clamped; do not finger the edge until the spindle stops.',
      when: 'during',
      concerns: 'injury',
      sources: ['mi-2640'],
    },
  ],
  'countersink-pillar': [
    {
      id: 'cp.hold',
      text: 'Held in the vice or a nest, even for a touch: it can snatch.',
      when: 'start',
      concerns: 'injury',
      sources: ['bghm-105', 'ccohs-drill'],
    },
    {
      id: 'cp.speed',
      text: 'Change to a low speed first; power off to move the belt.',
      when: 'start',
      concerns: 'both',
      sources: ['pedestal-sheet'],
    },
    {
      id: 'cp.stop',
      text: 'Set the depth stop on a scrap piece and check the lock nut.',
      when: 'start',
      concerns: 'part',
      sources: ['trade'],
    },
  ],
  ream: [
    {
      id: 're.speed',
      text: 'Slower than drilling, steady feed, with fluid.',
      when: 'start',
      concerns: 'part',
      sources: ['trade'],
    },
    {
      id: 're.back',
      text: 'Do not turn a reamer backwards; come out while it turns forward.',
      when: 'during',
      concerns: 'part',
      sources: ['trade'],
    },
  ],
  'tap-machine': [
    {
      id: 'tm.slow',
      text: 'STOP: lower the speed now. Tapping is far slower than drilling.',
      when: 'start',
      concerns: 'both',
      sources: ['trade'],
    },
    {
      id: 'tm.rev',
      text: 'Try reverse and the depth stop in the air before the first hole.',
      when: 'start',
      concerns: 'both',
      sources: ['trade'],
    },
    {
      id: 'tm.clear',
      text: 'Hands off the holder: a stuck tap swings it or the work.',
      when: 'during',
      concerns: 'injury',
      sources: ['trade'],
    },
    {
      id: 'tm.clamp',
      text: 'Work clamped against turning, not just resting on the table.',
      when: 'start',
      concerns: 'injury',
      sources: ['ccohs-drill', 'bghm-105'],
    },
    {
      id: 'tm.oil',
      text: 'Tapping fluid in every hole, chips out of blind holes first.',
      when: 'each-piece',
      concerns: 'part',
      sources: ['trade'],
    },
  ],
  'tap-hand': [
    {
      id: 'th.iso',
      text: 'Isolate the machine: a key or wrench sits in the chuck here.',
      when: 'start',
      concerns: 'injury',
      sources: ['trade'],
    },
    {
      id: 'th.out',
      text: 'Wrench and key out before the power goes back on.',
      when: 'end',
      concerns: 'injury',
      sources: ['ccohs-general', 'lsu'],
    },
    {
      id: 'th.back',
      text: 'Half a turn on, a quarter back; stop when it goes stiff.',
      when: 'during',
      concerns: 'part',
      sources: ['trade'],
    },
  ],
  'saw-power': [
    {
      id: 'sw.vice',
      text: 'Work in the vice, long bar supported; the offcut free to drop.',
      when: 'start',
      concerns: 'injury',
      sources: ['ccohs-saw'],
    },
    {
      id: 'sw.stop',
      text: 'Load, measure and unload only when the blade has stopped.',
      when: 'each-piece',
      concerns: 'injury',
      sources: ['ccohs-saw'],
    },
    {
      id: 'sw.gloves',
      text: 'No gloves near a moving blade.',
      when: 'during',
      concerns: 'injury',
      sources: ['wa-textbook'],
    },
    {
      id: 'sw.gauge',
      text: 'Use the length stop, and swing it clear so the offcut cannot jam.',
      when: 'start',
      concerns: 'both',
      sources: ['ccohs-saw', 'trade'],
    },
    {
      id: 'sw.burr',
      text: 'Ends are hot and burred: deburr before they go in a stop or vice.',
      when: 'end',
      concerns: 'both',
      sources: ['trade'],
    },
  ],
  'saw-hand': [
    {
      id: 'sh.vice',
      text: 'Grip it low in the vice, cut close to the jaws.',
      when: 'start',
      concerns: 'both',
      sources: ['trade'],
    },
    {
      id: 'sh.end',
      text: 'Ease off for the last strokes; mind your knuckles.',
      when: 'during',
      concerns: 'injury',
      sources: ['trade'],
    },
  ],
  'deburr-hand': [
    {
      id: 'db.handle',
      text: 'A file needs a tight handle; a bare tang goes into the palm.',
      when: 'start',
      concerns: 'injury',
      sources: ['trade'],
    },
    {
      id: 'db.vice',
      text: 'Part in the vice, away from the body, not in the hand.',
      when: 'start',
      concerns: 'injury',
      sources: ['trade'],
    },
    {
      id: 'db.eyes',
      text: 'Glasses stay on; brush the filings, do not blow them.',
      when: 'during',
      concerns: 'injury',
      sources: ['trade', 'hse-faq'],
    },
    {
      id: 'db.off',
      text: 'Not at a turning spindle, and no abrasive strip held in fingers.',
      when: 'during',
      concerns: 'injury',
      sources: ['trade'],
    },
    {
      id: 'db.edge',
      text: 'Gloves only here, for sharp edges; off before any machine.',
      when: 'during',
      concerns: 'injury',
      sources: ['trade'],
    },
  ],
  linish: [
    {
      id: 'li.grip',
      text: 'Small parts in a holder or grips, never fingertips.',
      when: 'start',
      concerns: 'injury',
      sources: ['trade'],
    },
    {
      id: 'li.dust',
      text: 'Dust: mask or extraction; do not mix steel sparks and light alloys.',
      when: 'start',
      concerns: 'injury',
      sources: ['trade'],
    },
    {
      id: 'li.rest',
      text: 'Rest set close, guard down, glasses and face shield.',
      when: 'start',
      concerns: 'injury',
      sources: ['trade'],
    },
  ],
  inspect: [
    {
      id: 'in.stop',
      text: 'Spindle stopped, table wound clear, then take the part out.',
      when: 'start',
      concerns: 'injury',
      sources: ['mi-2640', 'umich'],
    },
    {
      id: 'in.clean',
      text: 'Deburr, wipe and let it cool: a hot or dirty part lies.',
      when: 'start',
      concerns: 'part',
      sources: ['trade'],
    },
    {
      id: 'in.same',
      text: 'Same gauge, same place, zero checked; write the number down.',
      when: 'during',
      concerns: 'part',
      sources: ['trade'],
    },
    {
      id: 'in.back',
      text: 'Out of limits? Set it aside, and look at all since the last good one.',
      when: 'end',
      concerns: 'part',
      sources: ['trade'],
    },
  ],
  'clean-down': [
    {
      id: 'cd.air',
      text: 'Brush or vacuum; an air line drives chips into eyes and skin.',
      when: 'start',
      concerns: 'injury',
      sources: ['hse-faq', 'osha-242b'],
    },
    {
      id: 'cd.tool',
      text: 'Take the cutter out, power off, before you wipe the table.',
      when: 'start',
      concerns: 'injury',
      sources: ['ccohs-mill', 'umich'],
    },
    {
      id: 'cd.floor',
      text: 'Oil and chips off the floor before you go.',
      when: 'end',
      concerns: 'injury',
      sources: ['ccohs-mill'],
    },
  ],
  coolant: [
    {
      id: 'co.skin',
      text: 'Keep fluid off skin; wash, cover cuts, barrier as its sheet says.',
      when: 'start',
      concerns: 'injury',
      sources: ['hse-mwf', 'hse-faq'],
    },
    {
      id: 'co.mist',
      text: 'Least fluid that works; do not breathe the mist; air the room.',
      when: 'during',
      concerns: 'injury',
      sources: ['hse-mwf'],
    },
    {
      id: 'co.old',
      text: 'Sour or slimy fluid: do not use it.',
      when: 'start',
      concerns: 'injury',
      sources: ['hse-mwf', 'trade'],
    },
  ],
  'after-break': [
    {
      id: 'ab.zero',
      text: 'Check the zero on a known edge before the next cut.',
      when: 'start',
      concerns: 'part',
      sources: ['trade'],
    },
    {
      id: 'ab.lost',
      text: 'Power cut: the readout may have lost its zero; do not trust it.',
      when: 'start',
      concerns: 'part',
      sources: ['trade'],
    },
    {
      id: 'ab.tight',
      text: 'Check tool, vice, stop and work are still tight.',
      when: 'start',
      concerns: 'both',
      sources: ['ccohs-mill'],
    },
    {
      id: 'ab.which',
      text: 'Which piece, which face, which step? Match the tray to the screen.',
      when: 'start',
      concerns: 'part',
      sources: ['trade'],
    },
    {
      id: 'ab.switch',
      text: 'After a power cut: switch to off before the mains comes back.',
      when: 'start',
      concerns: 'injury',
      sources: ['trade'],
    },
  ],
  'material-brass': [
    {
      id: 'mb.grab',
      text: 'Drills grab in brass: clamp it, and take the hook off the lips.',
      when: 'start',
      concerns: 'both',
      sources: ['handbook-dub', 'trade'],
    },
    {
      id: 'mb.chips',
      text: 'Short flying chips: glasses even to clear blind holes.',
      when: 'during',
      concerns: 'injury',
      sources: ['bghm-105'],
    },
    {
      id: 'mb.lead',
      text: 'Leaded alloys: wash before you eat; keep the dust down.',
      when: 'end',
      concerns: 'injury',
      sources: ['trade'],
    },
  ],
  'material-aluminium': [
    {
      id: 'ma.weld',
      text: 'Chips weld to the tool: fluid, and look at the edge often.',
      when: 'during',
      concerns: 'part',
      sources: ['trade'],
    },
    {
      id: 'ma.string',
      text: 'Long hot strings: stop before you clear them.',
      when: 'during',
      concerns: 'injury',
      sources: ['ccohs-mill'],
    },
    {
      id: 'ma.dust',
      text: 'Keep fine aluminium dust away from steel sparks and wet bins.',
      when: 'end',
      concerns: 'injury',
      sources: ['trade'],
    },
  ],
  'material-steel': [
    {
      id: 'ms.hot',
      text: 'Blue chips burn: sleeves and collar matter.',
      when: 'during',
      concerns: 'injury',
      sources: ['trade'],
    },
    {
      id: 'ms.dwell',
      text: 'Stainless: keep it cutting; rubbing hardens it.',
      when: 'during',
      concerns: 'part',
      sources: ['trade'],
    },
  ],
  'material-magnesium': [
    {
      id: 'mm.fire',
      text: 'Chips burn and water feeds the fire: read local rules before you cut.',
      when: 'start',
      concerns: 'injury',
      sources: ['trade'],
    },
  ],
  'material-plastic': [
    {
      id: 'mpl.crack',
      text: 'Clear plastics crack as the drill comes through: back it, go slow.',
      when: 'during',
      concerns: 'part',
      sources: ['trade'],
    },
    {
      id: 'mpl.fume',
      text: 'Melting smell: stop; some plastics give off bad fume.',
      when: 'during',
      concerns: 'injury',
      sources: ['trade'],
    },
  ],
} as const satisfies Readonly<Record<string, readonly CautionRow[]>>;
