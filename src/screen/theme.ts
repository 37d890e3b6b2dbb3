/**
 * What the terminal may be asked to show: a full screen or plain lines, colour or none, box characters or ASCII. Pure:
 * environment and settings are arguments. Flags go before the environment, the environment before settings, settings
 * before detection.
 */

export type Theme = {
  /** 'screen': the full screen; 'lines': plain lines one after the other, for a dumb terminal or a screen reader. */
  readonly view: 'screen' | 'lines';
  /** Colours may be used. Bold and reverse are no colours and are used either way. */
  readonly colour: boolean;
  /** Only ASCII characters may be used. */
  readonly ascii: boolean;
  /** What is known of the ground: on a light one green is too pale to be read. */
  readonly ground: 'dark' | 'light';
};

/** What the user asked for, by flags or in the settings; what is left out is for the next in order. */
export type ThemeWishes = {
  readonly view?: 'screen' | 'lines';
  readonly colour?: 'on' | 'off';
  readonly glyphs?: 'box' | 'ascii';
  readonly ground?: 'dark' | 'light';
};

type Environment = Readonly<Record<string, string | undefined>>;

/**
 * The theme for this terminal. NO_COLOR (no-color.org): set and not empty means no colour, whatever its value.
 * FORCE_COLOR (force-color.org): set and not empty means colour, also against NO_COLOR; '0' and 'false' mean none, as
 * in the documentation of Node's `getColorDepth`. TERM dumb, or none, or no terminal at all: plain lines.
 * Example: TERM=vt220 is a screen without colour, in ASCII; TERM=linux with LANG=C.UTF-8 has colour and boxes.
 */
export function detectTheme(
  env: Environment,
  isTty: boolean,
  flags: ThemeWishes = {},
  settings: ThemeWishes = {},
): Theme {
  const term = env['TERM'] ?? '';
  const canBeScreen = isTty && term !== '' && term !== 'dumb' && term !== 'unknown';
  const wish = { ...settings, ...flags };
  return {
    // A full screen cannot be had by wishing for it.
    view: canBeScreen ? (wish.view ?? 'screen') : 'lines',
    colour: hasColour(env, isTty, term, flags, settings),
    ascii: wish.glyphs ? wish.glyphs === 'ascii' : isAscii(env, term),
    ground: wish.ground ?? groundOf(env),
  };
}

function hasColour(env: Environment, isTty: boolean, term: string, flags: ThemeWishes, settings: ThemeWishes): boolean {
  if (flags.colour) return flags.colour === 'on';
  const force = env['FORCE_COLOR'];
  if (force) return force !== '0' && force !== 'false';
  if (env['NO_COLOR']) return false;
  if (settings.colour) return settings.colour === 'on';
  return isTty && term !== '' && !monochrome.test(term);
}

/** Terminals whose terminfo entries have no colours: the VT family, dumb ones, and the variants marked -m or -mono. */
const monochrome = /^(vt\d|dumb$|unknown$|cons25-m)|-m$|-mono$/;
/** A DEC terminal draws no UTF-8. */
const byteTerminal = /^vt\d/;

/** The locale says whether the terminal takes UTF-8 (POSIX: LC_ALL before LC_CTYPE before LANG; empty is not set). */
function isAscii(env: Environment, term: string): boolean {
  const locale = env['LC_ALL'] || env['LC_CTYPE'] || env['LANG'] || '';
  return byteTerminal.test(term) || !/utf-?8/i.test(locale);
}

/** COLORFGBG, set by several terminals: letters;ground as numbers of the 16 colours. 7 and 9 to 15 are light. */
function groundOf(env: Environment): 'dark' | 'light' {
  const ground = Number(/;(\d+)$/.exec(env['COLORFGBG'] ?? '')?.[1] ?? 0);
  return ground === 7 || (ground >= 9 && ground <= 15) ? 'light' : 'dark';
}
