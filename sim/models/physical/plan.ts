/**
 * What a grower tells of lamps, crops, air, water, shelves, work and prices, as the figures of "what it takes" read it.
 *
 * Plain data, resolved once: defaults are filled in, names have become places in the plan, dates days from the start. What the
 * plan of the line knows already (days, holes, areas, masses of heads, cuts) is not told again. Whatever may be missing is
 * null, and then the figures that need it are missing too.
 */

/** Everything of one plan beyond its line. Lists run along the plan's own. */
export interface PhysicalPlan {
  readonly stages: readonly PhysicalStage[];
  /** null: what the crop is like is not told (it has no mass of a head). */
  readonly crops: readonly (CropMatter | null)[];
  readonly climate: Climate | null;
  /** Litres by the meter over litres by the model [-]; 1 where no meter tells it. */
  readonly waterScale: number;
  /** Whether the grower tells it, by a meter: then litres are no longer good to a factor only. */
  readonly waterMetered: boolean;
  readonly tank: TankPlan | null;
  readonly tiers: readonly TierPlan[];
  readonly work: WorkTimes | null;
  readonly prices: Prices | null;
}

export interface PhysicalStage {
  /** null: nothing is told of light. */
  readonly lamps: LampPlan | null;
  readonly channelSize: ChannelSize | null;
}

/** The lamps over one stage; they burn over every hole, full or empty. */
export interface LampPlan {
  /** Light at the leaves [umol m-2 s-1]; 0: a dark stage. */
  readonly ppfd: number;
  /** Hours a day [0..24]. */
  readonly hours: number;
  /** What they draw; null: not told. */
  readonly power: LampPower | null;
}

export type LampPower =
  /** All lamps of the stage together, by a meter [W]. */
  | { readonly kind: 'metered'; readonly watts: number }
  /** `efficacy` of the lamps [umol/J]; `reaches`, the share of their light that reaches the holes (0..1]. */
  | { readonly kind: 'made'; readonly efficacy: number; readonly reaches: number };

/** What a crop is made of, and how it grows. Its mass of a head, its days and its cuts are those of the line's plan. */
export interface CropMatter {
  /** Dry share of fresh mass (0..1). */
  readonly dry: number;
  /** Leaf area of a gram of dry leaf [cm2/g]. */
  readonly slaCm2G: number;
  /** Dry mass of what is sown in one hole [mg]. */
  readonly seedMg: number;
  /** Days until it shows [d]; null: by the warmth. */
  readonly emergeDays: number | null;
  /** Share of a plant that is left to grow again after a cut [0..1). */
  readonly left: number;
  /** Mean days between two cuts as the grower told them [d]; null where there is one cut. */
  readonly regrowDays: number | null;
  /** One entry a stage of the plan. */
  readonly stages: readonly CropMatterInStage[];
}

export interface CropMatterInStage {
  /**
   * Mean days as the grower told them, which hold under `daysAt` [d]. The line's plan has the days that hold under the line's own
   * conditions: these times the ratio of growing-days.ts.
   */
  readonly days: number;
  /** Fresh shoot of a plant that is ready to leave the stage [g]; null: not weighed, and in the last stage, whose head is known. */
  readonly readyG: number | null;
  /**
   * The conditions under which the plan's `days` hold; null: those of the line as it is. What the grower left out is as in the line
   * now; only then does what nobody told of night and germination become what the day is.
   */
  readonly daysAt: Conditions | null;
}

/** What growth depends on. */
export interface Conditions {
  /** Light at the leaves [umol m-2 s-1]. */
  readonly ppfd: number;
  /** Hours of light a day. */
  readonly hours: number;
  /** Air while the lamps burn [degC]. */
  readonly airC: number;
  /** Air while they do not [degC]. */
  readonly nightC: number;
  /** CO2 of the air [ppm]. */
  readonly co2: number;
  /** Where seeds germinate [degC]. */
  readonly germinationC: number;
}

/** The air of the line. */
export interface Air {
  /** While the lamps burn [degC]. */
  readonly airC: number;
  /** While they do not [degC]. */
  readonly nightC: number;
  /** Relative humidity while the lamps burn, and while they do not [%]; null: not told. */
  readonly humidity: number | null;
  readonly nightHumidity: number | null;
  /** [ppm] */
  readonly co2: number;
  /** Where seeds germinate [degC]. */
  readonly germinationC: number;
  /** Height above the sea [m]. */
  readonly altitudeM: number;
}

export interface Climate extends Air {
  /** Spells with other air, ascending and apart from each other; what is not named of one is as usual. */
  readonly dated: readonly DatedAir[];
}

export interface DatedAir {
  /** First day of the spell, from the start [d]; may lie before the season. */
  readonly from: number;
  /** First day after it [d]. */
  readonly beyond: number;
  readonly air: Air;
}

export interface TankPlan {
  /** What it can hold [L]. */
  readonly litres: number;
  /** Level to which a visit tops up, with the pump running [L]. */
  readonly fullL: number;
  /** Level below which the pump draws air [L]. */
  readonly lowL: number;
  /** Conductivity of a new filling at 25 degC [mS/cm]; null: not told. */
  readonly ec: number | null;
  /** The same of what is topped up. */
  readonly topUpEc: number | null;
  /** The same of what plants take up. */
  readonly uptakeEc: number | null;
  /** What stands in the pipes and comes back when the pump stops [L]. */
  readonly pipesL: number;
  /** Water that plug and roots of a plant hold when nothing flows [mL]. */
  readonly heldMl: number;
  /** It is emptied and filled anew at the first visit after so many days [d]; null: never. */
  readonly changeDays: number | null;
}

/** One channel of a stage. */
export interface ChannelSize {
  readonly lengthCm: number;
  readonly widthCm: number;
  readonly heightCm: number;
  /** Depth of the water that runs in it [mm]. */
  readonly filmMm: number;
  /** Empty [kg]. */
  readonly kg: number;
}

/** One tier of a rack. */
export interface TierPlan {
  readonly name: string;
  /** The stage whose channels stand on it: its place in the plan. */
  readonly stage: number;
  readonly channels: number;
  /** What its label allows [kg]; null: not told. */
  readonly ratedKg: number | null;
  readonly lampsKg: number;
  readonly otherKg: number;
  /** A wet plug [g]. */
  readonly plugG: number;
}

/** What a grower's deeds take: seconds a seed, plant or hole, minutes a visit. */
export interface WorkTimes {
  readonly sowS: number;
  readonly moveS: number;
  readonly pickS: number;
  /** A dead plant, failed seed or plant thrown away. */
  readonly clearS: number;
  /** A hole that is cleaned. */
  readonly cleanS: number;
  readonly visitMin: number;
  /** The tank, at each visit; 0 without a tank. */
  readonly tankMin: number;
}

/** Prices in the grower's own money; null: not told, and then left out of the sum. */
export interface Prices {
  readonly kwh: number | null;
  readonly waterM3: number | null;
  /** Nutrients in a litre of what the tank gets. */
  readonly nutrientsL: number | null;
  readonly plug: number | null;
  /** An hour of work. */
  readonly hour: number | null;
  /** Wear and interest of one hole a day. */
  readonly holeDay: number | null;
  /** All else, a day. */
  readonly otherDay: number | null;
  /** One entry a crop of the plan. */
  readonly crops: readonly CropPrices[];
}

export interface CropPrices {
  readonly seed: number | null;
  /** What a pick earns; null: not told. */
  readonly sale: Sale | null;
}

export interface Sale {
  readonly per: 'head' | 'kg';
  readonly price: number;
}
