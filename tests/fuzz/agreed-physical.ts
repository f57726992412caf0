/** Keys of light, air, water, shelves, work and prices made to fit each other, in a scenario that was made from the schema. */

type Tree = Record<string, unknown>;

/** @param scenario whose stages and crops have their names, each once */
export function withPhysicalAgreed(scenario: Tree): Tree {
  const { tank, tiers, work, prices, climate, ...others } = scenario;
  const names = (scenario['stages'] as Tree[]).map(({ name }) => name);
  const onTiers =
    tiers === undefined
      ? []
      : (tiers as Tree[]).map((tier, i) => ({ ...tier, stage: names[i % names.length] }));
  const stages = (scenario['stages'] as Tree[]).map((stage) => {
    const borne = onTiers.some((tier) => tier.stage === stage['name']);
    return { ...lit(stage), ...(borne ? { channel_size: stage['channel_size'] ?? SIZE } : {}) };
  });
  const crops = (scenario['crops'] as Tree[]).map(unweighed);
  const agreed: Tree = {
    ...others,
    ...(climate === undefined ? {} : { climate: inTurn(climate as Tree) }),
    ...(tank === undefined ? {} : { tank: filled(tank as Tree) }),
    ...(tiers === undefined
      ? {}
      : { tiers: onTiers.map((tier, i) => ({ ...tier, ...('name' in tier ? { name: `tier ${i}` } : {}) })) }),
    ...(work === undefined || scenario['visits'] === 'always' ? {} : { work }),
    ...(prices === undefined
      ? {}
      : {
          prices: sold(
            prices as Tree,
            crops.map(({ name }) => name as string),
          ),
        }),
    stages,
    crops,
  };
  // Of some scenarios, so that others keep all that the schema has.
  const [first] = Object.values(crops[0]!['stages'] as Record<string, Tree>);
  return 'days_at' in first! && 'keeps' in first ? temperate(agreed) : withSomeLight(withoutDaysAt(agreed));
}

/** Spells one after the other, each with some air of its own. */
function inTurn(climate: Tree): Tree {
  const { dated, ...others } = climate;
  if (dated === undefined) return others;
  const dateOf = (day: number): string => new Date(Date.UTC(2027, 0, 1 + day)).toISOString().slice(0, 10);
  const spells = (dated as Tree[]).map((spell, i) => ({
    ...spell,
    from: dateOf(7 * i),
    to: dateOf(7 * i + 4),
    ...('air_c' in spell ? {} : { co2: 450 }),
  }));
  return { ...others, dated: spells };
}

const SIZE = { length_cm: 100, width_cm: 10, height_cm: 5, kg: 2 };

function lit(stage: Tree): Tree {
  const { ppfd, hours, watts, efficacy, reaches, ...others } = stage;
  if (ppfd === undefined) return others;
  const power =
    watts !== undefined
      ? { watts }
      : efficacy === undefined
        ? {}
        : { efficacy, ...(reaches === undefined ? {} : { reaches }) };
  return { ...others, hole_area_cm2: others['hole_area_cm2'] ?? 100, ppfd, hours: hours ?? 16, ...power };
}

/** Without plants that were weighed: each has to be heavier than the one before. */
function unweighed(crop: Tree): Tree {
  const stages = Object.entries(crop['stages'] as Record<string, Tree>).map(([name, growing]) => {
    const { ready_g: _, ...others } = growing;
    return [name, others];
  });
  return { ...crop, stages: Object.fromEntries(stages) };
}

function filled(tank: Tree): Tree {
  const { litres, full_l: full, low_l: low, pipes_l: _, ...others } = tank as Record<string, number>;
  return { ...others, litres: litres! + full! + 100, full_l: full! + 100, low_l: Math.min(low!, full!) };
}

/** Each crop has one price. */
function sold({ kg, ...prices }: Tree, crops: readonly string[]): Tree {
  const once = kg === undefined || 'head' in prices ? prices : { ...prices, kg };
  const ofFirst = (price: object) => ({ [crops[0]!]: Object.values(price)[0] });
  return Object.fromEntries(
    Object.entries(once).map(([key, price]) => [key, typeof price === 'object' ? ofFirst(price!) : price]),
  );
}

/** A scenario whose crops do in each stage what they are changed to. */
function withGrowings(scenario: Tree, crop: Tree, change: (growing: Tree) => Tree): Tree {
  const crops = (scenario['crops'] as Tree[]).map((one) => {
    const stages = Object.entries(one['stages'] as Record<string, Tree>);
    return {
      ...one,
      ...crop,
      stages: Object.fromEntries(stages.map(([name, growing]) => [name, change(growing)])),
    };
  });
  return { ...scenario, crops };
}

function withoutDaysAt(scenario: Tree): Tree {
  return withGrowings(scenario, {}, ({ days_at: _, ...growing }) => growing);
}

/** Conditions in which the growth model is asked. */
function temperate(scenario: Tree): Tree {
  const { climate, stages } = scenario;
  const air = { air_c: 20, night_c: 18, germination_c: 20, co2: 500 };
  const light = { hole_area_cm2: 400, ppfd: 200, hours: 16 };
  const there = {
    ...scenario,
    climate: { ...mild(climate as Tree | undefined), ...air },
    stages: (stages as Tree[]).map((stage) => ({ ...stage, ...light })),
  };
  return withGrowings(there, { head_g: 100, seed_mg: 1, dry: 0.05, left: 0.3 }, (growing) =>
    'days_at' in growing ? { ...growing, days_at: { ppfd: 180, air_c: 22 } } : growing,
  );
}

/** Spells that the growth model knows. */
function mild(climate: Tree | undefined): Tree {
  const { dated, ...others } = climate ?? {};
  if (dated === undefined) return others;
  const air = { air_c: 23, night_c: 20, germination_c: 18, co2: 450 };
  return { ...others, dated: (dated as Tree[]).map((spell) => ({ ...spell, ...air })) };
}

/** Where light is told at all, heads have some. */
function withSomeLight(scenario: Tree): Tree {
  const stages = scenario['stages'] as Tree[];
  if (!stages.some((stage) => 'ppfd' in stage)) return scenario;
  const some = stages.map((stage, s) =>
    s < stages.length - 1
      ? stage
      : { ...stage, hole_area_cm2: stage['hole_area_cm2'] ?? 100, ppfd: 200, hours: 16 },
  );
  const crops = (scenario['crops'] as Tree[]).map((crop) =>
    'head_g' in crop ? { ...crop, head_g: 100, seed_mg: 1 } : crop,
  );
  return { ...scenario, stages: some, crops };
}
