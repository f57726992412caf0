/**
 * How the channels of a stage are laid out in so many columns and rows, hole by hole: geometry only.
 *
 * Holes of one channel stand in a row, `pitch` columns apart; channels stand below each other, then in a
 * second block beside the first, and so on. A channel that is too long is cut over several rows, with a
 * bracket before them.
 */

export interface Arrangement {
  readonly width: number;
  readonly height: number;
  /** Columns from one hole to the next. */
  readonly pitch: 1 | 2 | 3;
  /** Blocks of channels side by side; 1 where channels are cut. */
  readonly blocks: number;
  /** Channels below each other. */
  readonly perBlock: number;
  /** Holes in each row; all of a channel's unless it is cut. */
  readonly perRow: number;
  /** Rows of one channel; above 1 where it is cut. */
  readonly rowsPerChannel: number;
}

export interface Channels {
  readonly channels: number;
  readonly holesPerChannel: number;
}

/** Columns between two blocks of channels. */
export function blockGap(pitch: number): number {
  return pitch === 1 ? 1 : 2;
}

/** Uncut channels in at most `height` rows, as narrow as that goes. */
export function uncut(
  { channels, holesPerChannel }: Channels,
  height: number,
  pitch: 1 | 2 | 3,
): Arrangement {
  const blocks = Math.ceil(channels / height);
  const perBlock = Math.ceil(channels / blocks);
  const block = (holesPerChannel - 1) * pitch + 1;
  return {
    width: blocks * block + (blocks - 1) * blockGap(pitch),
    height: perBlock,
    pitch,
    blocks,
    perBlock,
    perRow: holesPerChannel,
    rowsPerChannel: 1,
  };
}

/**
 * Channels cut over several rows each, in at most `height` rows, as narrow as that goes; null if each would
 * have one row or none.
 */
export function cutUp(
  { channels, holesPerChannel }: Channels,
  height: number,
  pitch: 1 | 2,
): Arrangement | null {
  const most = Math.min(holesPerChannel, Math.floor(height / channels));
  if (most < 2) return null;
  const perRow = Math.ceil(holesPerChannel / most);
  const rowsPerChannel = Math.ceil(holesPerChannel / perRow);
  if (rowsPerChannel < 2) return null;
  return {
    width: 1 + (perRow - 1) * pitch + 1,
    height: channels * rowsPerChannel,
    pitch,
    blocks: 1,
    perBlock: channels,
    perRow,
    rowsPerChannel,
  };
}

/**
 * The ways to lay a stage out in at most `height` rows, the roomiest first.
 * @param pitch the most columns from one hole to the next
 */
export function arrangements(stage: Channels, height: number, pitch: 1 | 2 | 3): Arrangement[] {
  if (height < 1) return [];
  const pitches = ([3, 2, 1] as const).filter((one) => one <= pitch);
  const cuts = ([2, 1] as const).filter((one) => one <= pitch).map((one) => cutUp(stage, height, one));
  return [...pitches.map((one) => uncut(stage, height, one)), ...cuts.filter((one) => one !== null)];
}

/** What else than a hole can stand at a place of an arrangement. */
export const NOTHING = -1;
/** Between two holes of a row. */
export const RAIL = -2;
/** Before the first, a middle and the last row of a channel that is cut. */
export const FIRST_ROW = -3;
export const MIDDLE_ROW = -4;
export const LAST_ROW = -5;

/**
 * The hole at a place of an arrangement, counted through the stage; or one of the marks above, all below 0.
 */
export function holeAt(stage: Channels, arrangement: Arrangement, x: number, y: number): number {
  const { pitch, perBlock, perRow, rowsPerChannel } = arrangement;
  if (rowsPerChannel > 1) return holeOfCut(stage, arrangement, x, y);
  const step = (perRow - 1) * pitch + 1 + blockGap(pitch);
  const channel = Math.floor(x / step) * perBlock + y;
  const within = x % step;
  if (y >= perBlock || channel >= stage.channels || within > (perRow - 1) * pitch) return NOTHING;
  return within % pitch === 0 ? channel * stage.holesPerChannel + within / pitch : RAIL;
}

function holeOfCut(stage: Channels, arrangement: Arrangement, x: number, y: number): number {
  const { pitch, perRow, rowsPerChannel } = arrangement;
  const channel = Math.floor(y / rowsPerChannel);
  const row = y % rowsPerChannel;
  if (channel >= stage.channels) return NOTHING;
  if (x === 0) return row === 0 ? FIRST_ROW : row === rowsPerChannel - 1 ? LAST_ROW : MIDDLE_ROW;
  const place = Math.floor((x - 1) / pitch);
  const hole = row * perRow + place;
  if (place >= perRow || hole >= stage.holesPerChannel) return NOTHING;
  if ((x - 1) % pitch === 0) return channel * stage.holesPerChannel + hole;
  return place + 1 < perRow && hole + 1 < stage.holesPerChannel ? RAIL : NOTHING;
}
