/**
 * The settings of the program: one section a floor, each with its own schema. An open batch takes up only the screen's
 * section; hours and rate enter a batch when it is opened. P14: settings may vanish or be damaged without stopping a count.
 */
import * as z from 'zod';
import { shopHoursSchema } from '../forecast/shop-hours.ts';
import { reportSettingsSchema } from '../report/settings.ts';
import { type OpenedSettings, openSettings } from '../store/settings.ts';
import { shopMachinesSchema } from './shop-machines.ts';

const screenSettingsSchema = z.strictObject({
  digit_rows: z
    .number()
    .int()
    .min(5)
    .max(30)
    .nullable()
    .default(null)
    .describe(
      'Rows of a block digit, from the distance at which you stand; asked at the first start, z on the screen changes it; default: ask, and 7 until then.',
    ),
  hand: z
    .enum(['right', 'left'])
    .default('right')
    .describe('On which side of the keypad the counting keys lie; default right.'),
  sound: z.boolean().default(true).describe('A bell goes with a count; default true.'),
  glyphs: z.enum(['box', 'ascii']).optional().describe('Characters for drawings; default: what the terminal can.'),
  colour: z.enum(['on', 'off']).optional().describe('Colour; default: what the terminal can and NO_COLOR says.'),
  ground: z.enum(['dark', 'light']).optional().describe('Ground of the terminal; default: dark, or what it says.'),
});

/** A command's own keys by where they lie; keys are written as the help screen of the binding table writes their ids. */
const keysSchema = z.record(
  z.string().max(40),
  z.partialRecord(z.enum(['keyboard', 'keypad', 'left-hand', 'pedal']), z.array(z.string().max(40)).max(8)),
);

export const settingsSchema = z.object({
  initials: z.string().max(12).nullable().default(null).describe('Initials of who works here; default none.'),
  hours: shopHoursSchema
    .omit({ zone: true })
    .nullable()
    .default(null)
    .describe('When the shop is open; default always.'),
  report: reportSettingsSchema.default(() => reportSettingsSchema.parse({})).describe('Rating, allowance, rate.'),
  machines: shopMachinesSchema,
  screen: screenSettingsSchema.default(() => screenSettingsSchema.parse({})).describe('The screen.'),
  keys: keysSchema.default({}).describe('Keys changed by pressing them in the menu (/ 6); default none.'),
});
export type Settings = z.infer<typeof settingsSchema>;

/** The settings in `folder`; what is wrong with the file is in `notes` and never stops anything. */
export function loadSettings(folder: string): OpenedSettings<Settings> {
  return openSettings(folder, settingsSchema);
}
