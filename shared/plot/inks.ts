/**
 * The inks of page and paper. Every role of a probe has its own; ember is reserved for wood. The style sheets of the
 * page contain the same values, and a test compares them.
 */

export const inks = [
  'background',
  'ink',
  'quiet',
  'square',
  'line',
  'water',
  'ember',
  'flue',
  'riser',
  'air',
  'body',
  'core',
] as const;
export type Ink = (typeof inks)[number];
export type Palette = Readonly<Record<Ink, string>>;

export const dayInks: Palette = {
  background: '#faf7f0',
  ink: '#171a1f',
  quiet: '#5c5b54',
  square: '#efe9d9',
  line: '#dcd4bd',
  water: '#0b5ca8',
  ember: '#b43c0c',
  flue: '#7030b4',
  riser: '#5a1236',
  air: '#12795f',
  body: '#76580f',
  core: '#0a5468',
};

export const nightInks: Palette = {
  background: '#11130f',
  ink: '#f3eee2',
  quiet: '#aaa798',
  square: '#1c1f19',
  line: '#30352b',
  water: '#74b8ff',
  ember: '#ff8f52',
  flue: '#b36bff',
  riser: '#ff4f9f',
  air: '#3fe0a4',
  body: '#efae4c',
  core: '#8ae6ee',
};

/** Inks for white paper, whatever the theme of the screen. */
export const paperInks: Palette = {
  ...dayInks,
  background: '#ffffff',
  ink: '#000000',
  quiet: '#444444',
  square: '#e4e4e4',
  line: '#b0b0b0',
};
