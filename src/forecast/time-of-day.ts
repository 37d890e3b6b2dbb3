/** Times of day as text and as minutes since midnight. */

/** Minutes since midnight of `18:30`. Example: minutesOf('18:30') = 1110; `24:00` gives 1440. */
export function minutesOf(time: string): number {
  const [hours, minutes] = time.split(':');
  return Number(hours) * 60 + Number(minutes);
}

/** The text of a time of day. Example: timeOf(1110) = `18:30`. */
export function timeOf(minutes: number): string {
  return `${padded(Math.floor(minutes / 60))}:${padded(minutes % 60)}`;
}

/** A number below a hundred in two digits. */
export function padded(value: number): string {
  return String(value).padStart(2, '0');
}
