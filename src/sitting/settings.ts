/**
 * The settings of the program: one section a floor, each with its own schema. An open batch takes up only the screen's
 * section; hours and rate enter a batch when it is opened. P14: settings may vanish or be damaged without stopping a count.
 */
import * as z from 'zod';
import { shopHoursSchema } from '../forecast/shop-hours.ts';
import { reportSettingsSchema } from '../report/settings.ts';
import { type OpenedSettings, openSettings } from '../store/settings.ts';

const screenSettingsSchema = z.strictObject({
  digit_rows: z
    .number()
    .int()
    .min(5)
    .max(30)
    .default(5)
    .describe('Rows of a block digit, from the distance at which you stand; z on the screen changes it; default 5.'),
  hand: z
    .enum(['right', 'left'])
    .default('right')
    .describe('On which side of the keypad the counting keys lie; default right.'),
  sound: z.boolean().default(true).describe('A bell goes with a count; default true.'),
  glyphs: z.enum(['box', 'ascii']).optional().describe('Characters for drawings; default: what the terminal can.'),
  colour: z.enum(['on', 'off']).optional().describe('Colour; default: what the terminal can and NO_COLOR says.'),
  ground: z.enum(['dark', 'light']).optional().describe('Ground of the terminal; default: dark, or what it says.'),
});

export const settingsSchema = z.object({
  initials: z.string().max(12).nullable().default(null).describe('Initials of who works here; default none.'),
  hours: shopHoursSchema
    .omit({ zone: true })
    .nullable()
    .default(null)
    .describe('When the shop is open; default always.'),
  report: reportSettingsSchema.default(() => reportSettingsSchema.parse({})).describe('Rating, allowance, rate.'),
  screen: screenSettingsSchema.default(() => screenSettingsSchema.parse({})).describe('The screen.'),
});
export type Settings = z.infer<typeof settingsSchema>;

/** The settings in `folder`; what is wrong with the file is in `notes` and never stops anything. */
export function loadSettings(folder: string): OpenedSettings<Settings> {
  return openSettings(folder, settingsSchema);
}
