/** What a plant is made of: dry and fresh mass, root and shoot, leaf and water. Masses w are dry masses of whole plants [g]. */

/** Leaf of the shoot's dry mass [-], lettuce. */
const LEAF_OF_SHOOT = 0.92;
/** Shoot of the whole plant's dry mass [-]: lettuce in water; the rest is root (0.07, see two-state-growth.ts). */
export const SHOOT_OF_PLANT = 0.93;
/** How much light a layer of leaf takes [-]: lettuce 0.5 to 0.66, Tei et al. 1996 (from memory). */
export const EXTINCTION = 0.58;

/** The leaves of a crop. */
export interface Leaf {
  /** Leaf of a gram of plant [m2/g]. */
  readonly m2PerG: number;
  /** Extinction coefficient of light in leaves [-]. */
  readonly extinction: number;
}

/** @param slaCm2G leaf area of a gram of dry leaf [cm2/g] */
export function leafOf(slaCm2G: number, extinction = EXTINCTION): Leaf {
  return { m2PerG: (slaCm2G / 1e4) * LEAF_OF_SHOOT * SHOOT_OF_PLANT, extinction };
}

/** Dry mass of the whole plant [g]. @param shootG fresh shoot [g] @param dry dry share of fresh mass (0..1) */
export function wholeDryG(shootG: number, dry: number): number {
  return (shootG * dry) / SHOOT_OF_PLANT;
}

/** Fresh shoot [g]. @param w dry mass of the whole plant [g] */
export function freshShootG(w: number, dry: number): number {
  return (w * SHOOT_OF_PLANT) / dry;
}

/** Water in a plant [mL, or g]. @param w dry mass of the whole plant [g] */
export function plantWaterMl(w: number, dry: number): number {
  return (w * (1 - dry)) / dry;
}

/** A plant as it stands, with its water [g]. @param w dry mass of the whole plant [g] */
export function wholeFreshG(w: number, dry: number): number {
  return w / dry;
}
