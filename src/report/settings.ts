/** The report's section of the settings, and the choices a caller may make for one report. */
import * as z from 'zod';

export const reportSettingsSchema = z.strictObject({
  rating_pct: z
    .number()
    .min(10)
    .max(300)
    .default(100)
    .describe('Pace of the person timed against the usual pace, per cent; default 100.'),
  allowance_pct: z
    .number()
    .min(0)
    .max(90)
    .default(5)
    .describe(
      'Allowance for personal needs, tiredness and delay, per cent; default 5 (personal only, common practice).',
    ),
  allowance_of: z
    .enum(['job time', 'working day'])
    .default('job time')
    .describe('What the allowance is a share of: standard = normal x (1 + a), or normal / (1 - a).'),
  rate: z
    .strictObject({
      amount: z.number().nonnegative().describe('Price of one hour.'),
      currency: z.string().max(20).default('').describe('Such as EUR; may be left out.'),
    })
    .nullable()
    .default(null)
    .describe('What an hour costs; default: the rate with which the batch was opened, else no cost is given.'),
  material_per_piece: z
    .number()
    .nonnegative()
    .nullable()
    .default(null)
    .describe('Material for one blank, in the currency of the rate; default none.'),
  margin_pct: z
    .number()
    .min(0)
    .max(1000)
    .nullable()
    .default(null)
    .describe('Added to the cost to give the price, per cent; default: no price is given.'),
});
export type ReportSettings = z.infer<typeof reportSettingsSchema>;

/** Settings with every default filled in. `makeReportSettings({}).allowance_pct` is 5; a bad value throws zod's error. */
export const makeReportSettings = (given: z.input<typeof reportSettingsSchema> = {}): ReportSettings =>
  reportSettingsSchema.parse(given);
