import type { ReportModel } from '../model.ts';

/**
 * The model itself as JSON, format 1 (src/report/model.ts), indented by two, ended by a line break. Strings are escaped by
 * JSON's own rules, controls too, so that no byte of a name reaches a terminal raw.
 */
export const formatReportJson = (model: ReportModel): string =>
  `${JSON.stringify(model, null, 2).replace(/[\u007f-\u009f\u2028\u2029\u200e\u200f\u202a-\u202e\u2066-\u2069]/g, escaped)}\n`;

const escaped = (sign: string): string => `\\u${sign.charCodeAt(0).toString(16).padStart(4, '0')}`;
