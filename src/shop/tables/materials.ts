/** What is cut here, and what else people write for it. */

export type MaterialName =
  | 'mild steel'
  | 'free-cutting steel'
  | 'medium carbon steel'
  | 'alloy steel'
  | 'tool steel'
  | 'stainless steel'
  | 'free-machining stainless steel'
  | 'cast iron'
  | 'brass'
  | 'bronze'
  | 'aluminium'
  | 'acetal'
  | 'nylon'
  | 'plastics'
  | 'wood';

/**
 * Other names, standard designations among them (EN 10025, EN 10277, BS 970, AISI/SAE, EN 573, EN 12164; from memory). No
 * trade names.
 */
export const MATERIAL_ALIASES: Readonly<Record<MaterialName, readonly string[]>> = {
  'mild steel': [
    'steel',
    'low carbon steel',
    'structural steel',
    'bright mild steel',
    'bms',
    'black mild steel',
    'cold-rolled steel',
    'crs',
    'hot-rolled steel',
    'hrs',
    'en3',
    'en3b',
    '070m20',
    '080a15',
    's235',
    's235jr',
    's275',
    's275jr',
    's355',
    'c15',
    'a36',
    '1018',
    '1020',
  ],
  'free-cutting steel': [
    'leaded steel',
    'free-machining steel',
    'en1a',
    'en1apb',
    '230m07',
    '11smn30',
    '11smnpb30',
    '12l14',
    '1215',
  ],
  'medium carbon steel': ['carbon steel', 'en8', 'en9', '080m40', 'c45', 'c45e', '1045'],
  'alloy steel': ['en16', 'en19', 'en24', '42crmo4', '34crnimo6', '4130', '4140', '4340', 'chrome-molybdenum steel'],
  'tool steel': ['o1', 'w1', 'd2', 'silver steel', 'drill rod', 'gauge plate', 'ground flat stock', 'spring steel'],
  'stainless steel': [
    'stainless',
    'austenitic stainless',
    '304',
    '304l',
    '316',
    '316l',
    '1.4301',
    '1.4404',
    'a2',
    'a4',
  ],
  'free-machining stainless steel': ['free-machining stainless', 'stainless 303', '303', '1.4305'],
  'cast iron': ['grey cast iron', 'gray cast iron', 'grey iron', 'gg25', 'en-gjl-250', 'gjl250'],
  brass: ['free-cutting brass', 'cz121', 'cz120', 'cw614n', 'cuzn39pb3', 'c360', 'naval brass'],
  bronze: ['phosphor bronze', 'pb1', 'pb102', 'gunmetal', 'gun metal', 'lg2', 'sae 660', 'aluminium bronze'],
  aluminium: [
    'aluminum',
    'alu',
    'aluminium alloy',
    'aluminum alloy',
    'duralumin',
    '2011',
    '2014',
    '2024',
    '5083',
    '6060',
    '6061',
    '6061-t6',
    '6063',
    '6082',
    '6082-t6',
    '7075',
  ],
  acetal: ['pom', 'pom-c', 'pom-h', 'polyacetal', 'polyoxymethylene'],
  nylon: ['pa', 'pa6', 'pa66', 'polyamide', 'cast nylon'],
  plastics: [
    'plastic',
    'thermoplastic',
    'abs',
    'pvc',
    'acrylic',
    'pmma',
    'hdpe',
    'polyethylene',
    'polycarbonate',
    'pc',
  ],
  wood: ['hardwood', 'softwood', 'plywood', 'mdf', 'oak', 'beech', 'pine'],
};
