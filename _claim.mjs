// ../../../tmp/shim.mjs
var q = [];
var before = [];
var any = new Proxy(function() {
}, { get: () => any, apply: () => any });
var expect = any;
var only = process.env.ONLY ? new RegExp(process.env.ONLY) : null;
function test(name, a, b) {
  const f = typeof a === "function" ? a : b;
  q.push([String(name), f]);
}
test.each = (rows) => (name, f) => rows.forEach((r) => test(name + JSON.stringify(r), () => Array.isArray(r) ? f(...r) : f(r)));
test.skip = () => {
};
test.for = test.each;
function describe(name, f) {
  const r = f();
  return r;
}
describe.each = (rows) => (name, f) => rows.forEach((r) => Array.isArray(r) ? f(...r) : f(r));
async function runAll() {
  const c = process.cpuUsage();
  const T = [];
  for (const f of before) await f();
  T.push(["before", process.cpuUsage(c).user / 1e6]);
  for (const [n, f] of q) {
    if (only && !only.test(n)) continue;
    const c2 = process.cpuUsage();
    try {
      await f();
    } catch (e) {
      console.log("ERR", n, String(e).slice(0, 200));
    }
    T.push([n, process.cpuUsage(c2).user / 1e6]);
  }
  T.sort((a, b) => b[1] - a[1]);
  for (const [n, t] of T.slice(0, 8)) console.log(t.toFixed(2), n.slice(0, 100));
  console.log("TOTAL", (process.cpuUsage(c).user / 1e6).toFixed(2));
}

// sim/engine/clock.ts
var TICKS_PER_DAY = 2 ** 24;
var TICK = 1 / TICKS_PER_DAY;
function toGrid(days) {
  return Math.round(days * TICKS_PER_DAY) * TICK;
}

// sim/engine/normal.ts
var one = new Float64Array(1);
function normalQuantile(p) {
  one[0] = p;
  normalQuantiles(one, 1);
  return one[0];
}
function normalQuantiles(values, n) {
  for (let i = 0; i < n; i++) {
    const p = values[i];
    const q2 = p - 0.5;
    if (q2 >= -0.425 && q2 <= 0.425) {
      const r2 = 0.180625 - q2 * q2;
      values[i] = q2 * (((((((2509.0809287301227 * r2 + 33430.57558358813) * r2 + 67265.7709270087) * r2 + 45921.95393154987) * r2 + 13731.69376550946) * r2 + 1971.5909503065513) * r2 + 133.14166789178438) * r2 + 3.3871328727963665) / (((((((5226.495278852546 * r2 + 28729.085735721943) * r2 + 39307.89580009271) * r2 + 21213.794301586597) * r2 + 5394.196021424751) * r2 + 687.1870074920579) * r2 + 42.31333070160091) * r2 + 1);
      continue;
    }
    let r = Math.sqrt(-Math.log(q2 < 0 ? p : 1 - p));
    let z3;
    if (r <= 5) {
      r -= 1.6;
      z3 = (((((((7745450142783414e-19 * r + 0.022723844989269184) * r + 0.2417807251774506) * r + 1.2704582524523684) * r + 3.6478483247632045) * r + 5.769497221460691) * r + 4.630337846156546) * r + 1.4234371107496835) / (((((((10507500716444169e-25 * r + 5475938084995345e-19) * r + 0.015198666563616457) * r + 0.14810397642748008) * r + 0.6897673349851) * r + 1.6763848301838038) * r + 2.053191626637759) * r + 1);
    } else {
      r -= 5;
      z3 = (((((((20103343992922881e-23 * r + 27115555687434876e-21) * r + 0.0012426609473880784) * r + 0.026532189526576124) * r + 0.29656057182850487) * r + 1.7848265399172913) * r + 5.463784911164114) * r + 6.657904643501103) / (((((((20442631033899397e-31 * r + 1421511758316446e-22) * r + 18463183175100548e-21) * r + 7868691311456133e-19) * r + 0.014875361290850615) * r + 0.1369298809227358) * r + 0.599832206555888) * r + 1);
    }
    values[i] = q2 < 0 ? -z3 : z3;
  }
}
var ROOT_2PI = 2.5066282746310002;
var FAR = 7.07106781186547;
function normalBeyond(z3) {
  return z3 < 0 ? 1 - tail(-z3) : tail(z3);
}
function normalBelow(z3) {
  return z3 > 0 ? 1 - tail(z3) : tail(-z3);
}
function tail(x) {
  const front = Math.exp(-0.5 * x * x);
  if (x < FAR) {
    const above = (((((0.0352624965998911 * x + 0.700383064443688) * x + 6.37396220353165) * x + 33.912866078383) * x + 112.079291497871) * x + 221.213596169931) * x + 220.206867912376;
    const below = ((((((0.0883883476483184 * x + 1.75566716318264) * x + 16.064177579207) * x + 86.7807322029461) * x + 296.564248779674) * x + 637.333633378831) * x + 793.826512519948) * x + 440.413735824752;
    return front * above / below;
  }
  return front / (x + 1 / (x + 2 / (x + 3 / (x + 4 / (x + 0.65))))) / ROOT_2PI;
}

// sim/engine/gamma.ts
var LANCZOS_G = 7;
var LANCZOS = [
  0.9999999999998099,
  676.5203681218851,
  -1259.1392167224028,
  771.3234287776531,
  -176.6150291621406,
  12.507343278686905,
  -0.13857109526572012,
  9984369578019572e-21,
  15056327351493116e-23
];
var HALF_LN_2PI = 0.9189385332046727;
function lnGamma(x) {
  if (!(x > 0)) throw new RangeError(`lnGamma takes a number above 0: ${x}`);
  if (x < 0.5) return lnGamma(x + 1) - Math.log(x);
  const z3 = x - 1;
  let sum = LANCZOS[0];
  for (let i = 1; i < LANCZOS.length; i++) sum += LANCZOS[i] / (z3 + i);
  const t = z3 + LANCZOS_G + 0.5;
  return HALF_LN_2PI + (z3 + 0.5) * Math.log(t) - t + Math.log(sum);
}
var MOST_TERMS = 1e5;
function regularisedGamma(a, x, upper = false) {
  if (!(a > 0 && x >= 0)) throw new RangeError(`regularisedGamma takes a > 0 and x >= 0: ${a}, ${x}`);
  if (x === 0) return upper ? 1 : 0;
  const front = Math.exp(a * Math.log(x) - x - lnGamma(a));
  if (x < a + 1) {
    let term = 1 / a;
    let sum = term;
    for (let n = 1; n < MOST_TERMS && term > sum * 1e-17; n++) {
      term *= x / (a + n);
      sum += term;
    }
    return upper ? 1 - front * sum : front * sum;
  }
  const tiny = 1e-300;
  let b = x + 1 - a;
  let c = 1 / tiny;
  let d = 1 / b;
  let h = d;
  for (let n = 1; n < MOST_TERMS; n++) {
    const an = -n * (n - a);
    b += 2;
    d = an * d + b;
    if (Math.abs(d) < tiny) d = tiny;
    c = b + an / c;
    if (Math.abs(c) < tiny) c = tiny;
    d = 1 / d;
    const step = d * c;
    h *= step;
    if (Math.abs(step - 1) <= 23e-17) break;
  }
  return upper ? front * h : 1 - front * h;
}
var NEARLY_NORMAL = 1e5;
function gammaQuantile(p, a, q2 = 1 - p, start = 0) {
  if (!(p > 0 && p <= 1 && q2 > 0 && a > 0))
    throw new RangeError(`gammaQuantile takes 0 < p < 1 and a > 0: ${p}, ${a}`);
  const z3 = p < 0.5 ? normalQuantile(p) : -normalQuantile(q2);
  const root = 1 - 1 / (9 * a) + z3 / (3 * Math.sqrt(a));
  if (a > NEARLY_NORMAL) return a * root * root * root;
  let x = a * root * root * root;
  if (start > 0) x = start;
  else if (!(root > 0) || x < 0.05 * a) x = Math.exp((Math.log(p) + lnGamma(a + 1)) / a);
  const upper = p > 0.5;
  const lnFront = lnGamma(a);
  for (let i = 0; i < 60; i++) {
    const error = upper ? q2 - regularisedGamma(a, x, true) : regularisedGamma(a, x) - p;
    const density = Math.exp((a - 1) * Math.log(x) - x - lnFront);
    if (!(density > 0)) break;
    const newton = error / density;
    const step = newton / (1 - 0.5 * Math.max(-1, Math.min(1, newton * ((a - 1) / x - 1))));
    const next2 = x - step > 0 ? x - step : x / 2;
    const done = Math.abs(next2 - x) <= 1e-6 * x;
    x = next2;
    if (done) break;
  }
  return x;
}

// sim/engine/power.ts
function power(x, y) {
  return y === 0 ? 1 : Math.exp(y * Math.log(x));
}

// sim/engine/upper-gamma.ts
var STEPS = 100;
var FAR2 = 745;
function upperGamma(a, x) {
  if (x > FAR2) return 0;
  if (a >= 1) return Math.exp(lnGamma(a)) * regularisedGamma(a, x, true);
  return x >= 1 ? fraction(a, x) : fraction(a, 1) + upToOne(a, x);
}
function fraction(a, x) {
  let value = x;
  for (let n = STEPS; n >= 1; n--) value = x + (n - a) / (1 + n / value);
  return Math.exp(a * Math.log(x) - x) / value;
}
function upToOne(a, x) {
  let sum = 0;
  let sign = 1;
  for (let n = 0; n < 25; n++) {
    const power2 = a + n;
    sum += sign * (power2 === 0 ? -Math.log(x) : -Math.expm1(power2 * Math.log(x)) / power2);
    sign /= -(n + 1);
  }
  return sum;
}

// sim/engine/laws.ts
function shareOfAny(share) {
  return (t) => t > 0 ? t < Infinity ? share(t) : 1 : 0;
}
function fixedLaw(mean) {
  positive(mean, "mean");
  return {
    quantile: () => mean,
    fill: (values, n) => {
      values.fill(mean, 0, n);
    },
    share: shareOfAny((t) => t >= mean ? 1 : 0)
  };
}
function lognormalLaw(mean, cv) {
  positive(mean, "mean");
  positive(cv, "cv");
  const variance = Math.log1p(cv * cv);
  const sigma = Math.sqrt(variance);
  const mu = Math.log(mean) - variance / 2;
  const z3 = (t) => (Math.log(t) - mu) / sigma;
  const inverse = Math.exp(variance / 2 - mu);
  return {
    quantile: (u) => Math.exp(mu + sigma * normalQuantile(u)),
    fill: (values, n) => {
      normalQuantiles(values, n);
      for (let i = 0; i < n; i++) values[i] = Math.exp(mu + sigma * values[i]);
    },
    share: shareOfAny((t) => normalBelow(z3(t))),
    beyond: (t) => normalBeyond(z3(t)),
    logDensity: (t) => -0.5 * z3(t) ** 2 - HALF_LN_2PI - Math.log(sigma * t),
    endedBy: (t) => normalBelow(z3(t)) + t * inverse * normalBeyond(z3(t) + sigma)
  };
}
function exponentialLaw(mean) {
  positive(mean, "mean");
  return {
    quantile: (u) => -mean * Math.log1p(-u),
    fill: (values, n) => {
      for (let i = 0; i < n; i++) values[i] = -mean * Math.log1p(-values[i]);
    },
    share: shareOfAny((t) => -Math.expm1(-t / mean))
  };
}
function weibullLaw(mean, cv) {
  positive(mean, "mean");
  const k = weibullShape(cv);
  const scale = mean / Math.exp(lnGamma(1 + 1 / k));
  const inverse = 1 / k;
  const x = (t) => power(t / scale, k);
  return {
    quantile: (u) => scale * power(-Math.log1p(-u), inverse),
    fill: (values, n) => {
      for (let i = 0; i < n; i++) values[i] = scale * power(-Math.log1p(-values[i]), inverse);
    },
    share: shareOfAny((t) => -Math.expm1(-x(t))),
    beyond: (t) => Math.exp(-x(t)),
    logDensity: (t) => Math.log(k / scale) + (k - 1) * Math.log(t / scale) - x(t),
    endedBy: (t) => -Math.expm1(-x(t)) + t / scale * upperGamma(1 - inverse, x(t))
  };
}
var TRIANGULAR_CV_LIMIT = 1 / Math.sqrt(6);
function triangularLaw(mean, cv) {
  positive(mean, "mean");
  if (!(cv > 0 && cv < TRIANGULAR_CV_LIMIT)) {
    throw new RangeError(`cv of a triangular law must be above 0 and below ${TRIANGULAR_CV_LIMIT}: ${cv}`);
  }
  const half = Math.sqrt(6) * cv * mean;
  const low = mean - half;
  const high = mean + half;
  const quantile = (u) => u < 0.5 ? low + half * Math.sqrt(2 * u) : high - half * Math.sqrt(2 * (1 - u));
  return {
    quantile,
    fill: (values, n) => {
      for (let i = 0; i < n; i++) {
        const u = values[i];
        values[i] = u < 0.5 ? low + half * Math.sqrt(2 * u) : high - half * Math.sqrt(2 * (1 - u));
      }
    },
    share: shareOfAny((t) => {
      if (t >= high) return 1;
      return t < mean ? Math.max(0, (t - low) / half) ** 2 / 2 : 1 - ((high - t) / half) ** 2 / 2;
    })
  };
}
function observedLaw(times) {
  if (times.length === 0) throw new RangeError("observed times must not be an empty list");
  for (const time2 of times) positive(time2, "observed time");
  const sorted = Float64Array.from(times).sort();
  const count = sorted.length;
  return {
    quantile: (u) => sorted[Math.floor(u * count)],
    fill: (values, n) => {
      for (let i = 0; i < n; i++) values[i] = sorted[Math.floor(values[i] * count)];
    },
    share: shareOfAny((t) => {
      let low = 0;
      let high = count;
      while (low < high) {
        const middle = low + high >> 1;
        if (sorted[middle] <= t) low = middle + 1;
        else high = middle;
      }
      return low / count;
    })
  };
}
var NARROW = 1e-3;
function weibullShape(cv) {
  positive(cv, "cv");
  if (cv < NARROW) return narrowWeibullShape(cv);
  const target = Math.log1p(cv * cv);
  const excess = (k) => lnGamma(1 + 2 / k) - 2 * lnGamma(1 + 1 / k) - target;
  let low = 0.2;
  let high = 2 + 2 / cv;
  for (let i = 0; i < 200 && high - low > 1e-15 * high; i++) {
    const middle = (low + high) / 2;
    if (excess(middle) > 0) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
var ZETA = [
  1.6449340668482264,
  1.2020569031595942,
  1.0823232337111381,
  1.03692775514337,
  1.0173430619844492
];
var SERIES = ZETA.map((zeta, i) => (i % 2 === 0 ? 1 : -1) * zeta * (2 ** (i + 2) - 2) / (i + 2));
function narrowWeibullShape(cv) {
  const target = Math.sqrt(Math.log1p(cv * cv));
  let y = target / Math.sqrt(SERIES[0]);
  for (let i = 0; i < 8; i++) {
    let sum = 0;
    for (let n = SERIES.length - 1; n >= 0; n--) sum = sum * y + SERIES[n];
    y = target / Math.sqrt(sum);
  }
  return 1 / y;
}
function positive(value, what) {
  if (!(value > 0 && value < Infinity))
    throw new RangeError(`${what} must be a finite number above 0: ${value}`);
}

// sim/engine/gamma-law.ts
var Z_LIMIT = 6.5;
var PIECES_PER_Z = 8;
var DEGREES = 6;
function gammaLaw(mean, cv) {
  positive(mean, "mean");
  positive(cv, "cv");
  if (cv < NARROW2) return narrowGammaLaw(mean, cv);
  const shape = 1 / (cv * cv);
  const scale = mean / shape;
  const lnFront = lnGamma(shape);
  let table = null;
  return {
    quantile: (u) => scale * gammaQuantile(u, shape),
    fill: (values, n) => {
      table ??= gammaTable(shape, scale);
      interpolate(table, values, n);
    },
    share: shareOfAny((t) => regularisedGamma(shape, t / scale)),
    beyond: (t) => regularisedGamma(shape, t / scale, true),
    logDensity: (t) => (shape - 1) * Math.log(t / scale) - t / scale - lnFront - Math.log(scale),
    endedBy: (t) => {
      const x = t / scale;
      const inverse = shape > 1.5 ? regularisedGamma(shape - 1, x, true) / (shape - 1) : upperGamma(shape - 1, x) / Math.exp(lnFront);
      return regularisedGamma(shape, x) + x * inverse;
    }
  };
}
function interpolate(table, values, n) {
  normalQuantiles(values, n);
  for (let i = 0; i < n; i++) {
    const place = (values[i] + Z_LIMIT) * PIECES_PER_Z;
    const piece = place | 0;
    const s = place - piece;
    const at = DEGREES * piece;
    values[i] = Math.exp(
      table[at] + s * (table[at + 1] + s * (table[at + 2] + s * (table[at + 3] + s * (table[at + 4] + s * table[at + 5]))))
    );
  }
}
var NARROW2 = 1 / Math.sqrt(1e5);
function narrowGammaLaw(mean, cv) {
  const middle = 1 - cv * cv / 9;
  const deviation = cv / 3;
  const time2 = (z4) => {
    const root = middle + deviation * z4;
    return mean * root * root * root;
  };
  const z3 = (t) => (Math.cbrt(t / mean) - middle) / deviation;
  return {
    quantile: (u) => time2(normalQuantile(u)),
    fill: (values, n) => {
      normalQuantiles(values, n);
      for (let i = 0; i < n; i++) values[i] = time2(values[i]);
    },
    share: shareOfAny((t) => normalBelow(z3(t))),
    beyond: (t) => normalBeyond(z3(t)),
    // dz/dt = cbrt(t / mean) / (3 t deviation)
    logDensity: (t) => Math.log(Math.cbrt(t / mean) / (t * cv)) - 0.5 * z3(t) * z3(t) - HALF_LN_2PI,
    // E[1/T; T > t]: weighted by 1/T it is a gamma law again, of shape 1/CV^2 - 1 and the same scale.
    endedBy: (t) => {
      const inverse = 1 / (mean * (1 - cv * cv));
      const narrower = cv / Math.sqrt(1 - cv * cv);
      const beyond = normalBeyond(
        (Math.cbrt(t * inverse) - (1 - narrower * narrower / 9)) / (narrower / 3)
      );
      return normalBelow(z3(t)) + t * inverse * beyond;
    }
  };
}
function gammaTable(shape, scale) {
  const pieces = 2 * Z_LIMIT * PIECES_PER_Z;
  const table = new Float64Array(DEGREES * pieces);
  const lnFront = lnGamma(shape);
  const step = 1 / PIECES_PER_Z;
  const knot = (i, start) => {
    const z3 = i * step - Z_LIMIT;
    const tail2 = regularisedGamma(0.5, z3 * z3 / 2, true) / 2;
    const x = z3 < 0 ? gammaQuantile(tail2, shape, 1 - tail2, start) : gammaQuantile(1 - tail2, shape, tail2, start);
    const slope = Math.exp(-0.5 * z3 * z3 - HALF_LN_2PI - (shape * Math.log(x) - x - lnFront));
    const bend = slope * (-z3 - (shape - x) * slope);
    return { x, value: Math.log(scale * x), slope: slope * step, bend: bend * step * step };
  };
  let left = knot(0, 0);
  for (let i = 0; i < pieces; i++) {
    const right = knot(i + 1, left.x * Math.exp(left.slope + left.bend / 2));
    const rise = right.value - left.value;
    table.set(
      [
        left.value,
        left.slope,
        left.bend / 2,
        10 * rise - 6 * left.slope - 4 * right.slope - 1.5 * left.bend + 0.5 * right.bend,
        -15 * rise + 8 * left.slope + 7 * right.slope + 1.5 * left.bend - right.bend,
        6 * rise - 3 * (left.slope + right.slope) - 0.5 * (left.bend - right.bend)
      ],
      DEGREES * i
    );
    left = right;
  }
  return table;
}

// sim/engine/random.ts
import alea from "seedrandom/lib/alea.js";
var HALF_CELL = 2 ** -33;
function streamKey(name) {
  const text = JSON.stringify(name);
  let a = 2166136261;
  let b = 2654435769;
  for (let i = 0; i < text.length; i++) {
    const code = text.charCodeAt(i);
    a = Math.imul(a ^ code, 16777619);
    b = Math.imul(b ^ code, 1540483477);
  }
  return (a >>> 0).toString(36) + (b >>> 0).toString(36).padStart(7, "0");
}
function addressOf(seed, season, key) {
  return `${seed} ${season} ${key}`;
}
var BlockStream = class {
  #s0 = 0;
  #s1 = 0;
  #s2 = 0;
  #carry = 0;
  /** Begin the stream at this address. */
  start(seed, season, key) {
    const state = alea(addressOf(seed, season, key), { state: true }).state();
    this.#s0 = state.s0;
    this.#s1 = state.s1;
    this.#s2 = state.s2;
    this.#carry = state.c;
  }
  /** Fill `out[0 .. n-1]` with the next uniform numbers, strictly between 0 and 1. */
  fill(out, n) {
    let s0 = this.#s0;
    let s1 = this.#s1;
    let s2 = this.#s2;
    let carry = this.#carry;
    for (let i = 0; i < n; i++) {
      const t = 2091639 * s0 + carry * 2 ** -32;
      s0 = s1;
      s1 = s2;
      carry = t | 0;
      s2 = t - carry;
      out[i] = s2 + HALF_CELL;
    }
    this.#s0 = s0;
    this.#s1 = s1;
    this.#s2 = s2;
    this.#carry = carry;
  }
};

// sim/models/growth.ts
var known = /* @__PURE__ */ new WeakMap();
var NO_SPREAD = 1e-17;
function lawOf(time2) {
  let law = known.get(time2);
  if (law === void 0) {
    law = makeLaw(time2);
    known.set(time2, law);
  }
  return law;
}
function makeLaw(time2) {
  if (time2.shape === "observed") return observedLaw(time2.times);
  if (time2.shape === "exponential") return exponentialLaw(time2.days);
  if (time2.shape === "fixed" || time2.spread < NO_SPREAD) return fixedLaw(time2.days);
  switch (time2.shape) {
    case "lognormal":
      return lognormalLaw(time2.days, time2.spread);
    case "gamma":
      return gammaLaw(time2.days, time2.spread);
    case "weibull":
      return weibullLaw(time2.days, time2.spread);
    case "triangular":
      return triangularLaw(time2.days, time2.spread);
  }
}
var FIRST_BLOCK = 32;
var LARGEST_BLOCK = 128;
var RandomDraws = class {
  times = new Float64Array(LARGEST_BLOCK);
  moments = new Float64Array(LARGEST_BLOCK);
  sprouts = new Uint8Array(LARGEST_BLOCK);
  #law;
  #varies;
  #loss;
  #germination;
  #keys;
  #uniforms = new Float64Array(LARGEST_BLOCK);
  #next = 0;
  #size = 0;
  #timeStream = new BlockStream();
  #lossStream = new BlockStream();
  #momentStream = new BlockStream();
  #sproutStream = new BlockStream();
  /**
   * @param growing what the crop does in the stage
   * @param germination probability that a seed sprouts; 1 in every stage but the first
   * @param name names of crop and stage: the address of the streams
   */
  constructor(growing, germination, name) {
    this.#law = lawOf(growing.time);
    this.#varies = growing.time.shape !== "fixed" && !(growing.time.shape !== "observed" && growing.time.spread === 0);
    this.#loss = growing.loss;
    this.#germination = germination;
    this.#keys = {
      time: streamKey([...name, "time"]),
      loss: streamKey([...name, "loss"]),
      moment: streamKey([...name, "moment"]),
      sprouting: streamKey([...name, "sprouting"])
    };
    this.moments.fill(2);
    this.sprouts.fill(1);
  }
  start(seed, season) {
    this.#next = 0;
    this.#size = 0;
    if (this.#varies) this.#timeStream.start(seed, season, this.#keys.time);
    if (this.#loss > 0) {
      this.#lossStream.start(seed, season, this.#keys.loss);
      this.#momentStream.start(seed, season, this.#keys.moment);
    }
    if (this.#germination < 1) this.#sproutStream.start(seed, season, this.#keys.sprouting);
  }
  take() {
    if (this.#next === this.#size) this.#draw();
    return this.#next++;
  }
  #draw() {
    const n = this.#size === 0 ? FIRST_BLOCK : Math.min(2 * this.#size, LARGEST_BLOCK);
    this.#size = n;
    this.#next = 0;
    const { times, moments, sprouts } = this;
    const uniforms = this.#uniforms;
    if (this.#varies) this.#timeStream.fill(times, n);
    this.#law.fill(times, n);
    for (let i = 0; i < n; i++) times[i] = Math.max(TICK, toGrid(times[i]));
    if (this.#loss > 0) {
      this.#lossStream.fill(uniforms, n);
      this.#momentStream.fill(moments, n);
      for (let i = 0; i < n; i++) if (!(uniforms[i] < this.#loss)) moments[i] = 2;
    }
    if (this.#germination < 1) {
      this.#sproutStream.fill(uniforms, n);
      for (let i = 0; i < n; i++) sprouts[i] = uniforms[i] < this.#germination ? 1 : 0;
    }
  }
};

// sim/models/ledger.ts
var STATES = [
  /** A plant that is not ready yet, or a seed whose time is not over yet. */
  "growing",
  /** A dead plant or failed seed that no visit has cleared yet. */
  "dead",
  /** A ready plant that no visit has seen yet. */
  "unattended",
  /** A ready plant that a visit saw and could not move: no free hole in the next stage. */
  "blocked",
  /** A ready plant of the last stage that a visit saw and did not pick: not wanted yet. */
  "held",
  /** Nothing: being cleaned, or clean but not yet taken back into use by a visit. */
  "cleaning",
  /** Nothing, because no plant has ever been ready to come in (first stage: nothing sown yet). */
  "filling",
  /** Nothing, although a ready plant of the stage before waits for a visit to bring it. */
  "untended",
  /** Nothing, and nothing upstream is ready to come. */
  "unsupplied"
];
var STATE_COUNT = STATES.length;
var GROWING = 0;
var DEAD = 1;
var UNATTENDED = 2;
var BLOCKED = 3;
var HELD = 4;
var CLEANING = 5;
var FILLING = 6;
var UNTENDED = 7;
var UNSUPPLIED = 8;
var EMPTY_STATES = [FILLING, UNTENDED, UNSUPPLIED];
var COUNTS = [
  "sown",
  /** Seeds that were due but found no free cell. */
  "unsown",
  /** Seeds that did not sprout and whose time is over. */
  "failed",
  "lost",
  /** Plants thrown away because they had been ready for longer than they keep. */
  "discarded",
  /** Picks: a plant with three cuts counts three times. */
  "picked",
  /** Plants that have given their last pick. */
  "picked_out",
  /** Heads that were wanted. */
  "wanted",
  /** Heads that were wanted and not picked. */
  "short",
  /** Plants and seeds that stand in the line at the end. */
  "standing"
];
var SOWN = 0;
var UNSOWN = 1;
var FAILED = 2;
var LOST = 3;
var DISCARDED = 4;
var PICKED = 5;
var PICKED_OUT = 6;
var WANTED = 7;
var SHORT = 8;
var STANDING = 9;

// sim/models/route.ts
function first(_route) {
  return 0;
}
function last(route) {
  return route.stages.length - 1;
}
function isLast(route, s) {
  return s === last(route);
}
function next(route, s) {
  return isLast(route, s) ? -1 : s + 1;
}
function before2(_route, s) {
  return s - 1;
}

// sim/models/line/holes.ts
var RIPEN = 1;
var DIE = 2;
var FAIL = 3;
var CLEANED = 4;
var Holes = class {
  stageOf;
  /** What its pending event means. */
  fate;
  cropOf;
  plantOf;
  cutsLeft;
  readyAt;
  /** The next hole of its chain, -1 at the end; and the one before it, kept up for ready plants only. */
  after;
  before;
  /** The free holes of each stage: a stack from the stage's first hole on. */
  #free;
  constructor(stages) {
    const holes = stages.at(-1).beyond;
    this.stageOf = new Uint8Array(holes);
    for (const stage2 of stages) this.stageOf.fill(stage2.place, stage2.first, stage2.beyond);
    this.fate = new Uint8Array(holes);
    this.cropOf = new Uint8Array(holes);
    this.plantOf = new Int32Array(holes);
    this.cutsLeft = new Uint8Array(holes);
    this.readyAt = new Float64Array(holes);
    this.after = new Int32Array(holes);
    this.before = new Int32Array(holes);
    this.#free = new Int32Array(holes);
  }
  /** All holes of the stages are free. */
  reset(stages) {
    for (const { first: first2, beyond } of stages) {
      for (let hole = first2; hole < beyond; hole++) this.#free[hole] = first2 + beyond - 1 - hole;
    }
    this.fate.fill(0);
  }
  /** Take a free hole of a stage. */
  take(stage2) {
    return this.#free[stage2.first + --stage2.free];
  }
  /** Bring a hole of a stage (back) into use. */
  giveBack(stage2, hole) {
    this.#free[stage2.first + stage2.free++] = hole;
  }
  /** Put a ready plant behind those that were ready before, or at the same instant with a lower plant number. */
  queueReady(crop2, hole) {
    let before4 = crop2.readyTail;
    while (before4 >= 0 && this.#isSooner(hole, before4)) before4 = this.before[before4];
    const after = before4 >= 0 ? this.after[before4] : crop2.readyHead;
    this.before[hole] = before4;
    this.after[hole] = after;
    if (before4 >= 0) this.after[before4] = hole;
    else crop2.readyHead = hole;
    if (after >= 0) this.before[after] = hole;
    else crop2.readyTail = hole;
  }
  /** Take the plant that has been ready longest out of its crop's chain. @returns its hole */
  unqueueReady(crop2) {
    const hole = crop2.readyHead;
    const after = this.after[hole];
    crop2.readyHead = after;
    if (after >= 0) this.before[after] = -1;
    else crop2.readyTail = -1;
    return hole;
  }
  /** The crop whose first ready plant has been ready longest in a stage; one without any if there is none. */
  longestReady({ crops }) {
    let best = crops[0];
    for (let c = 1; c < crops.length; c++) {
      const { readyHead } = crops[c];
      if (readyHead >= 0 && (best.readyHead < 0 || this.#isSooner(readyHead, best.readyHead)))
        best = crops[c];
    }
    return best;
  }
  /** Was the plant in `hole` ready before that in `other`, or at the same instant with a lower plant number? */
  #isSooner(hole, other) {
    const sooner = this.readyAt[hole] - this.readyAt[other];
    return sooner < 0 || sooner === 0 && this.plantOf[hole] < this.plantOf[other];
  }
};

// sim/models/line/plants.ts
function note(line2, event, stage2, hole) {
  const { observer, queue, holes } = line2;
  observer?.onEvent(queue.now, event, holes.plantOf[hole], holes.cropOf[hole], stage2.place, hole);
}
function occupy({ holes, cuts }, stage2, c, plant) {
  const hole = holes.take(stage2);
  holes.cropOf[hole] = c;
  holes.plantOf[hole] = plant;
  holes.cutsLeft[hole] = cuts[c];
  stage2.crops[c].standing++;
  return hole;
}
function grow({ queue, holes }, stage2, hole, draws) {
  const k = draws.take();
  const days = draws.times[k];
  const moment = draws.moments[k];
  const fate = draws.sprouts[k] === 0 ? FAIL : moment < 1 ? DIE : RIPEN;
  stage2.growing++;
  stage2.touched = true;
  holes.fate[hole] = fate;
  queue.schedule(hole, queue.now + (fate === DIE ? toGrid(moment * days) : days));
}
function enter(line2, stage2, c, plant) {
  const hole = occupy(line2, stage2, c, plant);
  note(line2, "move", stage2, hole);
  grow(line2, stage2, hole, stage2.crops[c].draws);
}
function vacate({ queue, holes }, stage2, hole) {
  stage2.touched = true;
  if (stage2.cleanDays > 0) {
    stage2.cleaning++;
    holes.fate[hole] = CLEANED;
    queue.schedule(hole, queue.now + stage2.cleanDays);
  } else holes.giveBack(stage2, hole);
}

// sim/models/plan.ts
function seedsDue({ crops }) {
  return crops.reduce((sum, crop2) => sum + seedsDueOf(crop2), 0);
}
function seedsDueOf({ sowing }) {
  if (sowing.kind !== "due") return 0;
  const more = sowing.more?.reduce((all, seeds) => all + seeds, 0) ?? 0;
  return sowing.seeds * sowing.days.length + more;
}
function holesOf(stage2) {
  return stage2.channels * stage2.holesPerChannel;
}
function seasonDays(plan) {
  return plan.weeks * 7;
}

// sim/models/visits.ts
function meanWait(days, end, open = 0) {
  let sum = 0;
  let squares = 0;
  for (let i = 0; i < days.length; i++) {
    const gap = (i + 1 < days.length ? days[i + 1] : end) - days[i];
    sum += gap;
    squares += (gap - open) ** 2;
  }
  return sum > 0 ? squares / (2 * sum) : end / 2;
}
function meanWaitForVisit(plan) {
  return plan.visits.kind === "always" ? 0 : meanWait(plan.visits.days, seasonDays(plan));
}
function meanWaitForPick(plan) {
  if (plan.want === null) return meanWaitForVisit(plan);
  return plan.visits.kind === "always" ? meanWait(plan.want.days, seasonDays(plan), 1) : Math.max(meanWaitForVisit(plan), meanWait(plan.want.days, seasonDays(plan)));
}
function longestWaitForPick(plan) {
  if (plan.want === null) return meanWaitForVisit(plan);
  const { days } = plan.want;
  const open = plan.visits.kind === "always" ? 1 : 0;
  let longest = 0;
  for (let i = 1; i < days.length; i++) longest = Math.max(longest, days[i] - days[i - 1] - open);
  return Math.max(longest, meanWaitForVisit(plan));
}

// sim/models/refill.ts
function chancesToPick(crop2) {
  const chances = new Array(crop2.stages.length);
  let chance = 1;
  for (let s = last(crop2); s >= 0; s = before2(crop2, s)) {
    chance *= 1 - crop2.stages[s].loss;
    chances[s] = chance;
  }
  chances[first(crop2)] *= crop2.germination;
  return chances;
}
function meanStay(plan, crop2, s) {
  return stayWith(plan, crop2, s, meanWaitForPick(plan));
}
function stayWith(plan, crop2, s, wait) {
  const days = crop2.stages[s].time.days;
  if (!isLast(crop2, s)) return days + meanWaitForVisit(plan);
  return days + wait + (crop2.cuts - 1) * ((crop2.regrow?.time.days ?? 0) + wait);
}
function refills(plan) {
  const sharers = plan.crops.filter((crop2) => crop2.sowing.kind === "refill").length;
  return plan.crops.map((crop2) => {
    if (crop2.sowing.kind !== "refill") return null;
    const chances = chancesToPick(crop2);
    let rate = Infinity;
    let stay = 0;
    for (let s = 0; s < plan.stages.length; s++) {
      const stage2 = plan.stages[s];
      const free = Math.max(0, holesOf(stage2) - holesUsedByCadences(plan, s)) / sharers;
      const needed = meanStay(plan, crop2, s) + stage2.cleanDays;
      rate = Math.min(rate, free * chances[s] / needed);
      stay += stayWith(plan, crop2, s, longestWaitForPick(plan));
    }
    if (plan.want !== null) {
      const wanted = plan.want.heads * plan.want.days.length / seasonDays(plan);
      rate = Math.min(rate, Math.max(0, wanted - picksOfCadences(plan)) / (sharers * crop2.cuts));
    }
    return { rate, stay, chances };
  });
}
function seedsToRefill(refill, t, gap, standing) {
  let expected = 0;
  for (let s = 0; s < refill.chances.length; s++) expected += refill.chances[s] * standing(s);
  const missing = refill.rate * Math.min(t + gap, refill.stay) - expected;
  return refill.chances[0] > 0 ? Math.max(0, Math.ceil(missing / refill.chances[0] - 1e-9)) : 0;
}
function seedsPerDay(plan, crop2) {
  return seedsDueOf(crop2) / seasonDays(plan);
}
function holesUsedByCadences(plan, s) {
  let used = 0;
  for (const crop2 of plan.crops) {
    let entering = seedsPerDay(plan, crop2);
    for (let k = first(crop2); k < s; k = next(crop2, k))
      entering *= (1 - crop2.stages[k].loss) * (k === first(crop2) ? crop2.germination : 1);
    used += entering * (meanStay(plan, crop2, s) + plan.stages[s].cleanDays);
  }
  return used;
}
function picksOfCadences(plan) {
  let picks = 0;
  for (const crop2 of plan.crops) picks += seedsPerDay(plan, crop2) * chancesToPick(crop2)[0] * crop2.cuts;
  return picks;
}

// sim/models/line/visit.ts
function visit(line2) {
  takeBack(line2);
  clear(line2);
  discard(line2);
  pick(line2);
  moveOn(line2);
  if (line2.calendar.sowingDue) sowDue(line2);
  if (line2.calendar.refillDue) sowRefills(line2);
  see(line2);
  if (line2.always) watchKeeps(line2);
}
function takeBack({ holes, stages }) {
  for (let s = 0; s < stages.length; s++) {
    const stage2 = stages[s];
    for (let hole = stage2.cleanedHead; hole >= 0; hole = holes.after[hole]) {
      stage2.cleaning--;
      stage2.touched = true;
      holes.giveBack(stage2, hole);
    }
    stage2.cleanedHead = -1;
  }
}
function clear(line2) {
  const { holes, stages } = line2;
  for (let s = 0; s < stages.length; s++) {
    const stage2 = stages[s];
    let hole = stage2.deadHead;
    stage2.deadHead = -1;
    while (hole >= 0) {
      const next2 = holes.after[hole];
      stage2.dead--;
      note(line2, "clear", stage2, hole);
      vacate(line2, stage2, hole);
      hole = next2;
    }
  }
}
function discard(line2) {
  const { always: always2, crops, holes, queue, books } = line2;
  const limit = always2 ? queue.now + TICK : queue.now;
  for (let i = 0; i < crops.length; i++) {
    const crop2 = crops[i];
    if (always2 && !crop2.keepsOver) continue;
    crop2.keepsOver = false;
    while (crop2.readyHead >= 0 && holes.readyAt[crop2.readyHead] + crop2.keeps < limit) {
      const hole = takeReady(line2, crop2);
      crop2.standing--;
      books.counts[DISCARDED]++;
      books.season.weekDiscards[crop2.stage.place * line2.plan.weeks + Math.floor(queue.now / 7)]++;
      note(line2, "discard", crop2.stage, hole);
      vacate(line2, crop2.stage, hole);
    }
  }
}
function pick(line2) {
  const { holes, last: stage2, calendar, books } = line2;
  const limited = calendar.quota !== Infinity;
  while (stage2.ready > 0 && calendar.quota > 0) {
    const crop2 = holes.longestReady(stage2);
    const hole = takeReady(line2, crop2);
    countPick(line2, stage2, hole);
    if (limited) {
      calendar.quota--;
      books.counts[SHORT]--;
    }
    if (--holes.cutsLeft[hole] > 0) grow(line2, stage2, hole, line2.regrowDraws[crop2.c]);
    else {
      books.counts[PICKED_OUT]++;
      crop2.standing--;
      vacate(line2, stage2, hole);
    }
  }
}
function countPick(line2, stage2, hole) {
  const t = line2.queue.now;
  const { counts, season } = line2.books;
  counts[PICKED]++;
  season.weekPicks[Math.floor(t / 7)]++;
  if (Number.isNaN(season.firstPick)) season.firstPick = t;
  note(line2, "pick", stage2, hole);
}
function moveOn(line2) {
  let to = line2.last;
  for (let stage2 = to.before; stage2 !== null; stage2 = to.before) {
    while (stage2.ready > 0 && to.free > 0) {
      const crop2 = line2.holes.longestReady(stage2);
      const hole = takeReady(line2, crop2);
      crop2.standing--;
      vacate(line2, stage2, hole);
      enter(line2, to, crop2.c, line2.holes.plantOf[hole]);
    }
    to = stage2;
  }
}
function sowDue(line2) {
  const { calendar, books } = line2;
  for (let c = 0; c < calendar.due.length; c++) {
    const due = calendar.due[c];
    calendar.due[c] = 0;
    books.counts[UNSOWN] += due - sow(line2, c, due) + calendar.dropped[c];
    calendar.dropped[c] = 0;
  }
  calendar.sowingDue = false;
}
function sowRefills(line2) {
  const { calendar, stages, queue } = line2;
  for (const [c, refill] of line2.refills.entries()) {
    if (refill === null) continue;
    const standing = (s) => stages[s].crops[c].standing;
    sow(line2, c, seedsToRefill(refill, queue.now, calendar.gapAfter(queue), standing));
  }
  calendar.refillDue = false;
}
function sow(line2, c, seeds) {
  const { first: stage2, books } = line2;
  const { draws } = stage2.crops[c];
  const sown = Math.min(seeds, stage2.free);
  if (sown > 0) stage2.reached = true;
  books.counts[SOWN] += sown;
  for (let i = 0; i < sown; i++) {
    const hole = occupy(line2, stage2, c, line2.plants++);
    note(line2, "sow", stage2, hole);
    grow(line2, stage2, hole, draws);
  }
  return sown;
}
function see({ stages }) {
  for (let s = 0; s < stages.length; s++) {
    const stage2 = stages[s];
    if (stage2.unseen === 0) continue;
    stage2.unseen = 0;
    stage2.touched = true;
    if (stage2.next !== null) stage2.next.touched = true;
  }
}
function watchKeeps({ crops, holes, calendar, queue }) {
  for (let i = 0; i < crops.length; i++) {
    const crop2 = crops[i];
    if (crop2.readyHead < 0 || crop2.keepsPending || crop2.keeps === Infinity) continue;
    crop2.keepsPending = true;
    queue.schedule(calendar.keepsId + i, holes.readyAt[crop2.readyHead] + crop2.keeps);
  }
}
function takeReady({ holes }, crop2) {
  crop2.stage.ready--;
  crop2.stage.touched = true;
  return holes.unqueueReady(crop2);
}

// sim/models/line/events.ts
function handleEvent(line2, id) {
  const { holes, stages, calendar, queue, books } = line2;
  if (id >= calendar.visitId) {
    calendar.handleEvent(id, queue, books.counts);
    return;
  }
  const stage2 = stages[holes.stageOf[id]];
  const fate = holes.fate[id];
  if (fate === RIPEN) ripen(line2, stage2, id);
  else if (fate === CLEANED) {
    holes.after[id] = stage2.cleanedHead;
    stage2.cleanedHead = id;
  } else die(line2, stage2, id, fate === DIE);
}
function ripen(line2, stage2, hole) {
  const { holes, books, queue } = line2;
  const crop2 = stage2.crops[holes.cropOf[hole]];
  stage2.growing--;
  stage2.ready++;
  stage2.unseen++;
  books.shift(stage2, GROWING, UNATTENDED, queue);
  holes.readyAt[hole] = queue.now;
  holes.queueReady(crop2, hole);
  if (crop2.next !== null) {
    crop2.next.reached = true;
    crop2.next.touched = true;
  }
  note(line2, "ripen", stage2, hole);
}
function die(line2, stage2, hole, died) {
  const { holes, books } = line2;
  stage2.growing--;
  stage2.dead++;
  stage2.touched = true;
  stage2.crops[holes.cropOf[hole]].standing--;
  books.counts[died ? LOST : FAILED]++;
  holes.after[hole] = stage2.deadHead;
  stage2.deadHead = hole;
  note(line2, died ? "die" : "fail", stage2, hole);
}
function passOn(line2, hole) {
  const { queue, holes, books, calendar } = line2;
  const stage2 = line2.stages[holes.stageOf[hole]];
  if (holes.fate[hole] !== RIPEN || stage2.ready > 0 || queue.hasMoreNow()) return false;
  if (stage2.before !== null && stage2.before.ready > 0) return false;
  const crop2 = stage2.crops[holes.cropOf[hole]];
  const to = crop2.next;
  if (to !== null) {
    if (to.free === 0 || !to.reached) return false;
  } else if (calendar.quota !== Infinity || holes.cutsLeft[hole] !== 1) return false;
  note(line2, "ripen", stage2, hole);
  stage2.growing--;
  crop2.standing--;
  if (to !== null) {
    vacate(line2, stage2, hole);
    enter(line2, to, crop2.c, holes.plantOf[hole]);
    books.shift(to, UNSUPPLIED, GROWING, queue);
  } else {
    countPick(line2, stage2, hole);
    books.counts[PICKED_OUT]++;
    vacate(line2, stage2, hole);
  }
  books.shift(stage2, GROWING, stage2.cleanDays > 0 ? CLEANING : UNSUPPLIED, queue);
  return true;
}

// sim/models/initial-state.ts
var NEXT = ["ready", "ripen", "die", "fail"];

// sim/models/line/initial-state.ts
function setInitialState(line2, initial) {
  const { day, visitsFrom, plants, cleaning, reached } = initial;
  const { queue, holes, stages } = line2;
  if (line2.always) throw new RangeError("a season can be taken up only if its visits are on days");
  if (!(day >= 0 && visitsFrom > day)) {
    throw new RangeError(`the next visit must come after day ${day}, from day 0 on: ${visitsFrom}`);
  }
  queue.now = day;
  const ready = [];
  for (let i = 0; i < plants.next.length; i++) {
    const hole = stand(line2, plants, i);
    if (plants.next[i] === READY) ready.push(hole);
  }
  ready.sort((a, b) => holes.readyAt[a] - holes.readyAt[b]);
  for (const hole of ready) holes.queueReady(stages[holes.stageOf[hole]].crops[holes.cropOf[hole]], hole);
  for (const { stage: stage2, holes: count, until } of cleaning) {
    for (let i = 0; i < count; i++) clean(line2, stages[stage2], until);
  }
  for (const stage2 of stages) stage2.reached = reached[stage2.place];
  line2.calendar.passOver(day, visitsFrom);
}
var READY = NEXT.indexOf("ready");
var FATES = [RIPEN, RIPEN, DIE, FAIL];
function stand(line2, plants, i) {
  const { holes, queue } = line2;
  const stage2 = line2.stages[plants.stage[i]];
  const next2 = plants.next[i];
  const at = plants.at[i];
  demandFree(line2, stage2);
  const plant = line2.plants++;
  const hole = occupy(line2, stage2, plants.crop[i], plant);
  holes.cutsLeft[hole] = plants.cutsLeft[i];
  if (next2 === READY ? !(at <= queue.now) : !(at > queue.now)) {
    throw new RangeError(`plant ${plant}: ${NEXT[next2]} at ${at}, and the visit was on day ${queue.now}`);
  }
  holes.fate[hole] = FATES[next2];
  if (next2 === READY) {
    stage2.ready++;
    holes.readyAt[hole] = at;
  } else {
    stage2.growing++;
    queue.schedule(hole, at);
  }
  return hole;
}
function clean(line2, stage2, until) {
  const { holes, queue } = line2;
  demandFree(line2, stage2);
  const hole = holes.take(stage2);
  stage2.cleaning++;
  holes.fate[hole] = CLEANED;
  queue.schedule(hole, until);
}
function demandFree({ plan }, stage2) {
  if (stage2.free > 0) return;
  throw new RangeError(`more stands or is cleaned in ${plan.stages[stage2.place].name} than it has holes`);
}

// sim/engine/event-queue.ts
var INSERTION_LIMIT = 24;
var MOST_BUCKETS = 1 << 20;
var BUCKETS_PER_ID = 16;
var EventQueue = class {
  /** Time of the event that `next` returned last; 0 before the first. */
  now = 0;
  #horizon;
  #perTime;
  #time;
  /** Next id in the same bucket, -1 at its end; -2 for an id that is not pending. */
  #link;
  /** Latest id put into each bucket, -1 if none. */
  #heads;
  /** The bucket that is being emptied, its ids in order and how far we are. */
  #bucket = -1;
  #order;
  #scratch;
  #at = 0;
  #end = 0;
  /** Binary heap of what came into the open bucket late: ids, and the number of its arrival for ties. */
  #lateId;
  #lateSeq;
  #lateSize = 0;
  #lateCount = 0;
  /** Events in buckets that are not open yet. */
  #waiting = 0;
  /**
   * @param ids number of ids: events are 0 .. ids - 1
   * @param horizon end of time; what would happen at or after it does not happen
   * @param expected about how many events there will be in all (only speed depends on it)
   * @throws RangeError if a number is not as described
   */
  constructor(ids, horizon, expected) {
    if (!(Number.isInteger(ids) && ids >= 1))
      throw new RangeError(`ids must be a whole number above 0: ${ids}`);
    if (!(horizon > 0 && horizon < Infinity))
      throw new RangeError(`horizon must be finite and above 0: ${horizon}`);
    if (!(expected >= 0)) throw new RangeError(`expected must be 0 or more: ${expected}`);
    const most = Math.min(MOST_BUCKETS, BUCKETS_PER_ID * ids);
    const buckets = Math.max(64, Math.min(most, Math.ceil(expected / 4)));
    this.#horizon = horizon;
    this.#perTime = buckets / horizon;
    this.#time = new Float64Array(ids);
    this.#link = new Int32Array(ids).fill(-2);
    this.#heads = new Int32Array(buckets + 1).fill(-1);
    this.#order = new Int32Array(ids);
    this.#scratch = new Int32Array(ids);
    this.#lateId = new Int32Array(ids);
    this.#lateSeq = new Float64Array(ids);
  }
  /** Forget all events and set the clock back to 0. */
  reset() {
    this.now = 0;
    this.#link.fill(-2);
    this.#heads.fill(-1);
    this.#bucket = -1;
    this.#at = 0;
    this.#end = 0;
    this.#lateSize = 0;
    this.#lateCount = 0;
    this.#waiting = 0;
  }
  /**
   * Let event `id` happen at `time`.
   * @returns false if `time` is at or after the horizon: then it will not happen
   * @throws RangeError if `time` is before now or not a number, or if `id` is pending already
   */
  schedule(id, time2) {
    if (!(time2 >= this.now)) throw new RangeError(`event ${id} at ${time2}: it is ${this.now} already`);
    if (this.#link[id] !== -2) throw new RangeError(`event ${id} is pending already`);
    if (time2 >= this.#horizon) return false;
    this.#time[id] = time2;
    const bucket = time2 * this.#perTime | 0;
    if (bucket > this.#bucket) {
      this.#link[id] = this.#heads[bucket];
      this.#heads[bucket] = id;
      this.#waiting++;
    } else {
      this.#link[id] = -1;
      this.#pushLate(id);
    }
    return true;
  }
  /** Take the next event and set the clock to its time. @returns its id, or -1 if nothing is pending */
  next() {
    while (this.#at === this.#end && this.#lateSize === 0) {
      if (this.#waiting === 0) return -1;
      this.#open();
    }
    let id;
    if (this.#at === this.#end) id = this.#popLate();
    else {
      id = this.#order[this.#at];
      if (this.#lateSize > 0 && this.#time[this.#lateId[0]] < this.#time[id]) id = this.#popLate();
      else this.#at++;
    }
    this.now = this.#time[id];
    this.#link[id] = -2;
    return id;
  }
  /** Is another event pending at exactly the present time? */
  hasMoreNow() {
    return this.#at < this.#end && this.#time[this.#order[this.#at]] === this.now || this.#lateSize > 0 && this.#time[this.#lateId[0]] === this.now;
  }
  /** Open the next bucket that holds anything and sort it. */
  #open() {
    let bucket = this.#bucket + 1;
    while (this.#heads[bucket] < 0) bucket++;
    this.#bucket = bucket;
    const order = this.#order;
    let n = 0;
    for (let id = this.#heads[bucket]; id >= 0; id = this.#link[id]) order[n++] = id;
    this.#waiting -= n;
    for (let i = 0, j = n - 1; i < j; i++, j--) {
      const swap = order[i];
      order[i] = order[j];
      order[j] = swap;
    }
    if (n <= INSERTION_LIMIT) sortByInsertion(order, this.#time, 0, n);
    else sortByMerging(order, this.#scratch, this.#time, n);
    this.#at = 0;
    this.#end = n;
  }
  #pushLate(id) {
    const ids = this.#lateId;
    const seqs = this.#lateSeq;
    const times = this.#time;
    const time2 = times[id];
    let i = this.#lateSize++;
    while (i > 0) {
      const parent = i - 1 >> 1;
      if (times[ids[parent]] <= time2) break;
      ids[i] = ids[parent];
      seqs[i] = seqs[parent];
      i = parent;
    }
    ids[i] = id;
    seqs[i] = this.#lateCount++;
  }
  #popLate() {
    const ids = this.#lateId;
    const seqs = this.#lateSeq;
    const times = this.#time;
    const top = ids[0];
    const size = --this.#lateSize;
    const id = ids[size];
    const seq = seqs[size];
    const time2 = times[id];
    let i = 0;
    for (; ; ) {
      let child = 2 * i + 1;
      if (child >= size) break;
      const right = child + 1;
      if (right < size && before3(times, ids, seqs, right, child)) child = right;
      const childTime = times[ids[child]];
      if (time2 < childTime || time2 === childTime && seq < seqs[child]) break;
      ids[i] = ids[child];
      seqs[i] = seqs[child];
      i = child;
    }
    ids[i] = id;
    seqs[i] = seq;
    return top;
  }
};
function before3(times, ids, seqs, a, b) {
  const ta = times[ids[a]];
  const tb = times[ids[b]];
  return ta < tb || ta === tb && seqs[a] < seqs[b];
}
function sortByInsertion(order, times, from, to) {
  for (let i = from + 1; i < to; i++) {
    const id = order[i];
    const time2 = times[id];
    let j = i - 1;
    while (j >= from && times[order[j]] > time2) {
      order[j + 1] = order[j];
      j--;
    }
    order[j + 1] = id;
  }
}
function sortByMerging(order, scratch, times, n) {
  for (let from = 0; from < n; from += INSERTION_LIMIT) {
    sortByInsertion(order, times, from, Math.min(n, from + INSERTION_LIMIT));
  }
  for (let width = INSERTION_LIMIT; width < n; width *= 2) {
    for (let from = 0; from + width < n; from += 2 * width) {
      mergeRuns(order, scratch, times, from, from + width, Math.min(n, from + 2 * width));
    }
  }
}
function mergeRuns(order, scratch, times, from, middle, to) {
  if (times[order[middle - 1]] <= times[order[middle]]) return;
  for (let i = from; i < middle; i++) scratch[i] = order[i];
  let left = from;
  let right = middle;
  let out = from;
  while (left < middle && right < to) {
    if (times[order[right]] < times[scratch[left]]) order[out++] = order[right++];
    else order[out++] = scratch[left++];
  }
  while (left < middle) order[out++] = scratch[left++];
}

// sim/engine/tally.ts
var Levels = class {
  /** Area under each level from time 0 to the horizon, if nothing changes any more. */
  areas;
  #levels;
  #horizon;
  constructor(count, horizon) {
    if (!(horizon > 0 && horizon < Infinity))
      throw new RangeError(`horizon must be finite and above 0: ${horizon}`);
    this.areas = new Float64Array(count);
    this.#levels = new Float64Array(count);
    this.#horizon = horizon;
  }
  /** All levels and areas to 0. */
  reset() {
    this.areas.fill(0);
    this.#levels.fill(0);
  }
  /** Level `i` is `level` from time `t` on. Times of one level must not run backwards. */
  set(i, level, t) {
    const jump = level - this.#levels[i];
    if (jump !== 0) {
      this.areas[i] += jump * (this.#horizon - t);
      this.#levels[i] = level;
    }
  }
  // `set` does not call it: a line calls `set` many times in a row, and it must stay short to be inlined there.
  /** Level `i` is higher by `jump` from time `t` on. Times of one level must not run backwards. */
  add(i, jump, t) {
    this.areas[i] += jump * (this.#horizon - t);
    this.#levels[i] += jump;
  }
};
var Moments = class {
  count = 0;
  mean = 0;
  /** Sum of squared deviations from the mean. */
  squares = 0;
  add(value) {
    this.count++;
    const off = value - this.mean;
    this.mean += off / this.count;
    this.squares += off * (value - this.mean);
  }
  /** Unbiased variance; NaN below two values. */
  get variance() {
    return this.count < 2 ? Number.NaN : this.squares / (this.count - 1);
  }
  /** Standard error of the mean; NaN below two values. */
  get standardError() {
    return Math.sqrt(this.variance / this.count);
  }
};
function quantileOf(p, count, ranked) {
  if (!(p >= 0 && p <= 1)) throw new RangeError(`p must be from 0 to 1: ${p}`);
  if (count === 0) return Number.NaN;
  const place = p * (count - 1);
  const below = Math.floor(place);
  const low = ranked(below);
  return below === place ? low : low + (place - below) * (ranked(below + 1) - low);
}
var Histogram = class _Histogram {
  total = 0;
  /** How often `#lowest + i` was seen. */
  #seen = new Float64Array(0);
  #lowest = 0;
  /** @throws RangeError unless `value` is a whole number of at least 0 */
  add(value, times = 1) {
    if (!(Number.isInteger(value) && value >= 0))
      throw new RangeError(`a count must be a whole number: ${value}`);
    const at = value - this.#lowest;
    if (!(at >= 0 && at < this.#seen.length)) this.#widen(value);
    this.#seen[value - this.#lowest] += times;
    this.total += times;
  }
  merge(other) {
    for (let i = 0; i < other.#seen.length; i++) {
      if (other.#seen[i] > 0) this.add(other.#lowest + i, other.#seen[i]);
    }
  }
  /** As `quantileOf`. */
  quantile(p) {
    return quantileOf(p, this.total, (rank2) => this.#ranked(rank2));
  }
  /**
   * The least value that share `p` of all do not exceed: a whole number (Hyndman & Fan's type 1).
   * @param p from 0 to 1
   * @returns NaN if nothing was counted
   */
  least(p) {
    if (this.total === 0) return Number.NaN;
    return this.#ranked(Math.max(0, Math.ceil(p * this.total - 1e-9) - 1));
  }
  /** Share of values of at most `value`; NaN if nothing was counted. */
  shareUpTo(value) {
    let sum = 0;
    for (let i = 0; i < this.#seen.length && this.#lowest + i <= value; i++) sum += this.#seen[i];
    return sum / this.total;
  }
  /** Mean of the values; NaN if nothing was counted. */
  get mean() {
    let sum = 0;
    for (let i = 0; i < this.#seen.length; i++) sum += this.#seen[i] * (this.#lowest + i);
    return sum / this.total;
  }
  /** Standard error of the mean; NaN below two values. */
  get standardError() {
    if (this.total < 2) return Number.NaN;
    const { mean } = this;
    let squares = 0;
    for (let i = 0; i < this.#seen.length; i++) squares += this.#seen[i] * (this.#lowest + i - mean) ** 2;
    return Math.sqrt(squares / (this.total - 1) / this.total);
  }
  /** All that was counted: the lowest value seen, then how often it and each next one was seen. */
  toData() {
    if (this.total === 0) return [];
    const first2 = this.#seen.findIndex((times) => times > 0);
    const last2 = this.#seen.findLastIndex((times) => times > 0);
    return [this.#lowest + first2, ...this.#seen.subarray(first2, last2 + 1)];
  }
  static from(data) {
    const counts = new _Histogram();
    if (data.length === 0) return counts;
    counts.#lowest = data[0];
    counts.#seen = Float64Array.from(data.slice(1));
    for (const times of counts.#seen) counts.total += times;
    return counts;
  }
  /** The value of rank `rank`, 0 the lowest. */
  #ranked(rank2) {
    let left = rank2;
    let i = 0;
    while (left >= this.#seen[i]) left -= this.#seen[i++];
    return this.#lowest + i;
  }
  /** Make room for `value`, with as much again to spare. */
  #widen(value) {
    const old = this.#seen;
    if (old.length === 0) {
      this.#lowest = value;
      this.#seen = new Float64Array(8);
      return;
    }
    const spare = old.length;
    const lowest = Math.max(0, Math.min(this.#lowest, value < this.#lowest ? value - spare : value));
    const highest = Math.max(
      this.#lowest + old.length - 1,
      value >= this.#lowest + old.length ? value + spare : 0
    );
    const wide = new Float64Array(highest - lowest + 1);
    wide.set(old, this.#lowest - lowest);
    this.#seen = wide;
    this.#lowest = lowest;
  }
};

// sim/models/line/books.ts
var Books = class {
  /** The same object in every season. */
  season;
  counts = new Float64Array(COUNTS.length);
  #levels;
  constructor(plan) {
    this.#levels = new Levels(plan.stages.length * STATE_COUNT, seasonDays(plan));
    this.season = {
      counts: this.counts,
      ledger: this.#levels.areas,
      weekPicks: new Float64Array(plan.weeks),
      weekDiscards: new Float64Array(plan.stages.length * plan.weeks),
      firstPick: Number.NaN
    };
  }
  /** Nothing counted and nothing booked. */
  reset() {
    this.#levels.reset();
    this.counts.fill(0);
    this.season.weekPicks.fill(0);
    this.season.weekDiscards.fill(0);
    this.season.firstPick = Number.NaN;
  }
  /** Book the levels of every stage that was touched, as they stand from now on. */
  book(stages, queue) {
    const t = queue.now;
    for (let s = 0; s < stages.length; s++) {
      const stage2 = stages[s];
      if (!stage2.touched) continue;
      stage2.touched = false;
      stage2.tellLevels(this.#levels, t);
    }
  }
  /** Book that one hole of a stage goes from one state into another, where nothing else changes. */
  shift(stage2, from, to, { now }) {
    this.#levels.add(stage2.place * STATE_COUNT + from, -1, now);
    this.#levels.add(stage2.place * STATE_COUNT + to, 1, now);
  }
};

// sim/models/line/calendar.ts
var Calendar = class {
  /* Events: those of the holes come first, each under the number of its hole; then these. */
  visitId;
  wantId;
  /** The end of keeping, for each crop in each stage (only with `always`). */
  keepsId;
  /** Sowings, for each crop. */
  sowId;
  /** How many events there are, with those of the holes. */
  ids;
  /** Is somebody there at this instant? */
  visiting = false;
  /** Heads that may still be picked today; Infinity without `want`. */
  quota = Infinity;
  /** Seeds that are due and not dealt with, by crop. */
  due;
  /** Of crops whose missed sowings are dropped: seeds that are not sown any more since a later sowing fell due. */
  dropped;
  sowingDue = false;
  refillDue = false;
  #plan;
  #crops;
  #visits;
  #wants;
  #sowings;
  /** When the latest sowing fell due, by crop [d]. */
  #lastDue;
  /** @param crops of each stage, in turn */
  constructor(plan, holes, crops) {
    this.#plan = plan;
    this.#crops = crops;
    this.#visits = new Days(plan.visits.kind === "days" ? plan.visits.days : []);
    this.#wants = new Days(plan.want?.days ?? []);
    this.#sowings = plan.crops.map((crop2) => new Days(sowingDays(plan, crop2)));
    this.due = new Float64Array(plan.crops.length);
    this.dropped = new Float64Array(plan.crops.length);
    this.#lastDue = new Float64Array(plan.crops.length);
    this.visitId = holes;
    this.wantId = holes + 1;
    this.keepsId = holes + 2;
    this.sowId = this.keepsId + crops.length;
    this.ids = this.sowId + plan.crops.length;
  }
  /** Back to day 0, with nothing to be done. */
  reset() {
    for (const days of [this.#visits, this.#wants, ...this.#sowings]) days.next = 0;
    this.quota = this.#plan.want === null ? Infinity : 0;
    this.due.fill(0);
    this.dropped.fill(0);
    this.#lastDue.fill(-1);
    this.sowingDue = false;
    this.refillDue = false;
  }
  /**
   * Pass over what was on the calendar by `day`.
   * @param visitsFrom no visit before this day, whatever the plan says [d from the start]
   */
  passOver(day, visitsFrom) {
    this.#visits.passOver(visitsFrom);
    for (const days of [this.#wants, ...this.#sowings]) days.passOver(day + TICK);
  }
  /** Let the first visit, wanted day and sowings come. */
  begin(queue) {
    queue.schedule(this.visitId, this.#visits.day);
    queue.schedule(this.wantId, this.#wants.day);
    for (const [c, days] of this.#sowings.entries()) queue.schedule(this.sowId + c, days.day);
  }
  /** An event of the calendar comes; `counts` are those of the season. */
  handleEvent(id, queue, counts) {
    if (id === this.visitId) {
      this.visiting = true;
      this.refillDue = true;
      queue.schedule(id, this.#visits.pass());
    } else if (id === this.wantId) this.#want(queue, counts);
    else if (id < this.sowId) {
      const crop2 = this.#crops[id - this.keepsId];
      crop2.keepsPending = false;
      crop2.keepsOver = true;
    } else {
      const c = id - this.sowId;
      const { sowing } = this.#plan.crops[c];
      if (sowing.kind === "refill") this.refillDue = true;
      else {
        if (sowing.missed === "dropped") this.#drop(c, queue.now);
        this.due[c] += sowing.seeds + (sowing.more?.[this.#sowings[c].next] ?? 0);
        this.sowingDue = true;
      }
      queue.schedule(id, this.#sowings[c].pass());
    }
  }
  /** Days from this visit to the next one; to the end of the season after the last. */
  gapAfter({ now }) {
    if (this.#plan.visits.kind === "always") return 1;
    const { day } = this.#visits;
    return (day === Infinity ? seasonDays(this.#plan) : day) - now;
  }
  /** Of a crop another sowing falls due; what falls due at the same instant is one sowing. */
  #drop(c, now) {
    if (this.#lastDue[c] !== now) {
      this.dropped[c] += this.due[c];
      this.due[c] = 0;
    }
    this.#lastDue[c] = now;
  }
  /** A day on which heads are wanted begins, or the day after it. */
  #want(queue, counts) {
    if (this.#wants.day === queue.now) {
      const { heads } = this.#plan.want;
      this.quota = heads;
      counts[WANTED] += heads;
      counts[SHORT] += heads;
      this.#wants.next++;
      queue.schedule(this.wantId, queue.now + 1);
    } else {
      this.quota = 0;
      queue.schedule(this.wantId, this.#wants.day);
    }
  }
};
var Days = class {
  /** How many have come. */
  next = 0;
  #days;
  /** @param days ascending [d from the start] */
  constructor(days) {
    this.#days = Float64Array.from(days, toGrid);
  }
  /** The next one; Infinity if none is left. */
  get day() {
    return this.#days[this.next] ?? Infinity;
  }
  /** The next one has come. @returns the one after it */
  pass() {
    this.next++;
    return this.day;
  }
  /** Let all that come before a day have come. */
  passOver(beyond) {
    while (this.day < beyond) this.next++;
  }
};
function sowingDays(plan, { sowing }) {
  if (sowing.kind === "due") return sowing.days;
  return plan.visits.kind === "always" ? Array.from({ length: seasonDays(plan) }, (_, day) => day) : [];
}

// sim/models/line/stage.ts
var Stage = class {
  /** Its place in the plan. */
  place;
  /** Its first hole, counted through all stages, and the first one beyond it. */
  first;
  beyond;
  /** Days that a hole is out of use after a plant has left it [d, on the grid]. */
  cleanDays;
  /** The stages before and after it; null if there is none. */
  before;
  next = null;
  /** What each crop does here; nothing where crops do not matter. */
  crops = [];
  /* Holes, by what they hold. */
  /** Nothing, and in use. */
  free = 0;
  growing = 0;
  ready = 0;
  /** Ready plants that no visit has seen; not kept up while a visit is at work, which sees them all. */
  unseen = 0;
  dead = 0;
  cleaning = 0;
  /** Was a plant ever ready to come in? */
  reached = false;
  /** May the levels have changed since they were booked? */
  touched = true;
  /** Chains of holes to be cleared, and of holes whose cleaning is over; -1 at the end. */
  deadHead = -1;
  cleanedHead = -1;
  constructor(plan, place, before4) {
    const stage2 = plan.stages[place];
    this.place = place;
    this.first = before4?.beyond ?? 0;
    this.beyond = this.first + holesOf(stage2);
    this.cleanDays = toGrid(stage2.cleanDays);
    this.before = before4;
    if (before4 !== null) before4.next = this;
    this.reset();
  }
  /** All holes empty, and nobody ever here. */
  reset() {
    this.free = this.beyond - this.first;
    this.growing = 0;
    this.ready = 0;
    this.unseen = 0;
    this.dead = 0;
    this.cleaning = 0;
    this.reached = false;
    this.touched = true;
    this.deadHead = -1;
    this.cleanedHead = -1;
  }
  /** Empty holes that ready plants of the stage before, which no visit has seen, will be brought to. */
  get untended() {
    return this.reached && this.before !== null ? Math.min(this.free, this.before.unseen) : 0;
  }
  /** Tell the levels of the ledger, how many holes are in each state, as they stand from `t` on. */
  tellLevels(levels, t) {
    const at = this.place * STATE_COUNT;
    const { free, unseen, untended, reached, next: next2 } = this;
    levels.set(at + GROWING, this.growing, t);
    levels.set(at + DEAD, this.dead, t);
    levels.set(at + UNATTENDED, unseen, t);
    levels.set(at + (next2 === null ? HELD : BLOCKED), this.ready - unseen, t);
    levels.set(at + CLEANING, this.cleaning, t);
    levels.set(at + FILLING, reached ? 0 : free, t);
    levels.set(at + UNTENDED, untended, t);
    levels.set(at + UNSUPPLIED, reached ? free - untended : 0, t);
  }
};
var CropInStage = class {
  /** Place of the crop in the plan. */
  c;
  stage;
  /** The stage into which its plants go; null if they are picked here. */
  next;
  /** Days that a ready plant stays good [d, on the grid]. */
  keeps;
  draws;
  /** Its ready plants, longest ready first: a chain both ways. */
  readyHead = -1;
  readyTail = -1;
  /** Is there an event for the end of keeping; has it come (only with `always`)? */
  keepsPending = false;
  keepsOver = false;
  /** Plants that stand, known dead ones not counted. */
  standing = 0;
  constructor(c, stage2, next2, keeps, draws) {
    this.c = c;
    this.stage = stage2;
    this.next = next2;
    this.keeps = toGrid(keeps);
    this.draws = draws;
  }
  /** No plant here, and the luck of a season. */
  reset(seed, season) {
    this.draws.start(seed, season);
    this.readyHead = -1;
    this.readyTail = -1;
    this.keepsPending = false;
    this.keepsOver = false;
    this.standing = 0;
  }
};
function stagesOf(plan) {
  const stages = [];
  for (let place = first(plan); place >= 0; place = next(plan, place))
    stages.push(new Stage(plan, place, stages.at(-1) ?? null));
  return stages;
}

// sim/models/line/state.ts
var LineState = class {
  plan;
  always;
  stages;
  /** Where seeds are sown, and where heads are picked. */
  first;
  last;
  /** Of each stage, in turn. */
  crops;
  holes;
  calendar;
  books;
  queue;
  /* By crop. */
  cuts;
  regrowDraws;
  refills;
  observer = null;
  /** Plants that were sown so far: the number of the next one. */
  plants = 0;
  constructor(plan, drawsOf) {
    this.plan = plan;
    this.always = plan.visits.kind === "always";
    const stages = stagesOf(plan);
    for (const stage2 of stages) {
      stage2.crops = plan.crops.map((crop2, c) => {
        const next2 = stages[next(crop2, stage2.place)] ?? null;
        return new CropInStage(c, stage2, next2, crop2.stages[stage2.place].keeps, drawsOf(c, stage2.place));
      });
    }
    this.stages = stages;
    this.first = stages[first(plan)];
    this.last = stages[last(plan)];
    this.crops = stages.flatMap((stage2) => stage2.crops);
    this.holes = new Holes(stages);
    this.calendar = new Calendar(plan, this.last.beyond, this.crops);
    this.books = new Books(plan);
    this.queue = new EventQueue(this.calendar.ids, seasonDays(plan), expectedEvents(plan));
    this.cuts = Uint8Array.from(plan.crops, (crop2) => crop2.cuts);
    this.regrowDraws = plan.crops.map(({ regrow }, c) => regrow && drawsOf(c, stages.length));
    this.refills = refills(plan);
  }
  /** An empty line on day 0 of a season, with the season's luck. */
  reset(seed, season) {
    for (const stage2 of this.stages) stage2.reset();
    for (const crop2 of this.crops) crop2.reset(seed, season);
    for (const draws of this.regrowDraws) draws?.start(seed, season);
    this.holes.reset(this.stages);
    this.calendar.reset();
    this.books.reset();
    this.queue.reset();
    this.plants = 0;
  }
};
function expectedEvents(plan) {
  let seeds = 0;
  for (const crop2 of plan.crops) seeds += crop2.sowing.kind === "due" ? seedsDueOf(crop2) : Infinity;
  let events = 0;
  for (const [s, stage2] of plan.stages.entries()) {
    const shortest = Math.min(...plan.crops.map((crop2) => crop2.stages[s].time.days));
    events += Math.min(seeds, holesOf(stage2) * seasonDays(plan) / shortest);
  }
  return Math.min(events, 2 ** 31);
}

// sim/models/line/line.ts
function planDraws(plan) {
  return (c, s) => {
    const crop2 = plan.crops[c];
    if (s === plan.stages.length) return new RandomDraws(crop2.regrow, 1, [crop2.name, "regrowth"]);
    const germination = s === first(crop2) ? crop2.germination : 1;
    return new RandomDraws(crop2.stages[s], germination, [crop2.name, "stage", plan.stages[s].name]);
  };
}
var Line = class {
  plan;
  #state;
  constructor(plan, { drawsOf = planDraws(plan) } = {}) {
    this.plan = plan;
    this.#state = new LineState(plan, drawsOf);
  }
  /**
   * Run one season.
   * @param seed of the random streams
   * @param season number of the season: with the same seed and number everything happens again
   * @param observer hears of everything that happens
   * @param initial what stands already, if the season is taken up in the middle; then all that is counted and booked is
   * from there on
   * @returns the same object at every call
   * @throws RangeError if `initial` cannot be true of this line, or the plan has `visits: always`
   */
  run(seed, season, observer = null, initial = null) {
    const line2 = this.#state;
    const { always: always2, queue, stages, books, calendar } = line2;
    const free = () => Int32Array.from(stages, (stage2) => stage2.free);
    line2.reset(seed, season);
    line2.observer = observer;
    if (initial !== null) setInitialState(line2, initial);
    books.book(stages, queue);
    calendar.begin(queue);
    for (let id = queue.next(); id >= 0; id = queue.next()) {
      if (always2 && id < calendar.visitId && passOn(line2, id)) continue;
      calendar.visiting = always2;
      handleEvent(line2, id);
      while (queue.hasMoreNow()) handleEvent(line2, queue.next());
      if (calendar.visiting) {
        visit(line2);
        observer?.onVisitEnd?.(queue.now, free());
      }
      books.book(stages, queue);
    }
    for (const { growing, ready } of stages) books.counts[STANDING] += growing + ready;
    line2.observer = null;
    return books.season;
  }
};

// sim/models/growings.ts
function withGrowings(crop2, change) {
  return {
    ...crop2,
    stages: crop2.stages.map(change),
    regrow: crop2.regrow === null ? null : change(crop2.regrow)
  };
}

// sim/seasons/changes.ts
var MORE_SEEDS_PERCENT = 10;
var RISK = { kind: "growing", percent: 10 };
function changesOf(plan) {
  const changes = [
    ...plan.stages.map((stage2) => {
      const channels = channelsMore(stage2);
      return { kind: "channel", stage: stage2.name, channels, holes: channels * stage2.holesPerChannel };
    }),
    { kind: "seeds", percent: MORE_SEEDS_PERCENT },
    { kind: "visits" },
    { kind: "away" }
  ];
  return changes.filter((change) => shareAdded(plan, change) > 0);
}
function channelsMore({ channels }) {
  return Math.max(1, Math.round(channels / 100));
}
function shareAdded(plan, change) {
  switch (change.kind) {
    case "channel":
      return change.channels / plan.stages.find(({ name }) => name === change.stage).channels;
    case "seeds":
      return seedsDue(applied(plan, change)) / seedsDue(plan) - 1;
    case "visits":
    case "away":
      return visitsOf(applied(plan, change)) / visitsOf(plan) - 1;
    case "growing":
      return 0;
  }
}
function visitsOf({ visits }) {
  return visits.kind === "days" ? visits.days.length : Number.POSITIVE_INFINITY;
}
function applied(plan, change) {
  switch (change.kind) {
    case "channel":
      return {
        ...plan,
        stages: plan.stages.map(
          (stage2) => stage2.name === change.stage ? { ...stage2, channels: stage2.channels + change.channels } : stage2
        )
      };
    case "seeds":
      return { ...plan, crops: plan.crops.map((crop2) => withMoreSeeds(crop2, change.percent)) };
    case "visits":
      return visitedDaily(plan);
    case "away":
      return neverAway(plan);
    case "growing":
      return { ...plan, crops: plan.crops.map((crop2) => growingLonger(crop2, 1 + change.percent / 100)) };
  }
}
function visitedDaily(plan) {
  const { visits } = plan;
  if (visits.kind === "always") return plan;
  const away = new Set(visits.away?.days);
  const days = Array.from({ length: seasonDays(plan) }, (_, day) => day).filter((day) => !away.has(day));
  return { ...plan, visits: { ...visits, days } };
}
function neverAway(plan) {
  const { visits } = plan;
  if (visits.kind === "always" || !visits.away?.visits.length) return plan;
  const days = [...visits.days, ...visits.away.visits].sort((a, b) => a - b);
  return { ...plan, visits: { kind: "days", days } };
}
function withMoreSeeds(crop2, percent) {
  const { sowing } = crop2;
  if (sowing.kind !== "due") return crop2;
  const upTo = (sowings) => Math.round(sowings * sowing.seeds * percent / 100);
  return { ...crop2, sowing: { ...sowing, more: sowing.days.map((_, k) => upTo(k + 1) - upTo(k)) } };
}
function growingLonger(crop2, times) {
  return withGrowings(crop2, ({ time: time2, ...rest }) => ({
    ...rest,
    time: { ...time2, days: time2.days * times, times: time2.times.map((one2) => one2 * times) }
  }));
}
function cannotMatter(change, plan, season) {
  if (change.kind !== "channel") return false;
  const atOnce = plan.visits.kind === "always";
  if (plan.crops.some(
    ({ sowing, stages }) => sowing.kind === "refill" || atOnce && stages.some(({ keeps }) => keeps === 0)
  ))
    return false;
  const s = plan.stages.findIndex((stage2) => stage2.name === change.stage);
  if (s === first(plan)) return season.counts[UNSOWN] === 0;
  return season.ledger[before2(plan, s) * STATE_COUNT + BLOCKED] === 0;
}

// sim/seasons/workload.ts
function changesTried({ plan, trials }) {
  return trials > 0 ? [...changesOf(plan), RISK] : [];
}

// sim/engine/exact-moments.ts
var SPLIT = 2 ** 27;
var CARRY = 2 ** 52;
var PER_COLUMN = 8;
var ExactMoments = class _ExactMoments {
  count = 0;
  width;
  #sums;
  /** @param width columns */
  constructor(width) {
    this.width = width;
    this.#sums = new Float64Array(width * PER_COLUMN);
  }
  /**
   * Take in one row.
   * @param row one figure a column: multiples of a tick from 0 to 2^29. Nobody checks that here, where every season
   * passes: a figure between two ticks would come out wrong.
   */
  add(row) {
    const sums = this.#sums;
    this.count++;
    for (let i = 0, at = 0; i < this.width; i++, at += PER_COLUMN) {
      const ticks = row[i] * TICKS_PER_DAY;
      if (ticks === 0) continue;
      const a = Math.round(ticks / SPLIT);
      const b = ticks - a * SPLIT;
      sums[at] += a;
      sums[at + 1] += b;
      this.#addProduct(at + 2, a * a);
      this.#addProduct(at + 4, a * b);
      this.#addProduct(at + 6, b * b);
    }
  }
  /** Take in all that `other` has seen. */
  merge(other) {
    const theirs = other.#sums;
    this.count += other.count;
    for (let at = 0; at < this.#sums.length; at += PER_COLUMN) {
      this.#sums[at] += theirs[at];
      this.#sums[at + 1] += theirs[at + 1];
      for (let k = 2; k < PER_COLUMN; k += 2) {
        this.#sums[at + k + 1] += theirs[at + k + 1];
        this.#addProduct(at + k, theirs[at + k]);
      }
    }
  }
  /** Mean of column `i`; NaN if nothing was added. */
  mean(i) {
    return Number(this.#sum(i)) / TICKS_PER_DAY / this.count;
  }
  /** Standard error of the mean of column `i`; NaN below two rows. */
  standardError(i) {
    if (this.count < 2) return Number.NaN;
    const n = BigInt(this.count);
    const spread = Number(n * this.#squares(i) - this.#sum(i) ** 2n);
    return Math.sqrt(spread / (this.count - 1)) / this.count / TICKS_PER_DAY;
  }
  /** All that was summed, as plain numbers. */
  toData() {
    return [this.count, ...this.#sums];
  }
  /** @throws RangeError if the data are not of that width */
  static from(width, data) {
    if (data.length !== 1 + width * PER_COLUMN)
      throw new RangeError(`not ${width} columns: ${data.length} numbers`);
    const moments = new _ExactMoments(width);
    moments.count = data[0];
    for (let i = 1; i < data.length; i++) moments.#sums[i - 1] = data[i];
    return moments;
  }
  /** Add a number of at most 2^53 to the sum at `at`. */
  #addProduct(at, value) {
    const sum = this.#sums[at] + value;
    if (sum >= CARRY) {
      this.#sums[at] = sum - CARRY;
      this.#sums[at + 1]++;
    } else if (sum <= -CARRY) {
      this.#sums[at] = sum + CARRY;
      this.#sums[at + 1]--;
    } else this.#sums[at] = sum;
  }
  /** Ticks, of column `i`. */
  #sum(i) {
    const at = i * PER_COLUMN;
    return BigInt(this.#sums[at]) * BigInt(SPLIT) + BigInt(this.#sums[at + 1]);
  }
  /** Squared ticks, of column `i`. */
  #squares(i) {
    const at = i * PER_COLUMN;
    const product = (k) => BigInt(this.#sums[at + k + 1]) * BigInt(CARRY) + BigInt(this.#sums[at + k]);
    const split = BigInt(SPLIT);
    return product(2) * split * split + 2n * product(4) * split + product(6);
  }
};

// sim/engine/lists.ts
function largest(values, least = Number.NEGATIVE_INFINITY) {
  let most = least;
  for (const value of values) if (value > most) most = value;
  return most;
}

// sim/seasons/tallies.ts
var Tallies = class {
  seasons = 0;
  /** One column for each of COUNTS. */
  counts;
  /** Stage s, state k in column s x STATE_COUNT + k [hole-days]. */
  ledger;
  /** Distribution of the picks of each week. */
  weekPicks;
  /** Day of the first pick; seasons without a pick are missing here. */
  firstPickDay;
  /** Plants thrown away, of all seasons together: stage s, week w at s x weeks + w. */
  discards;
  constructor(plan, data) {
    const columns = plan.stages.length * STATE_COUNT;
    if (data === void 0) {
      this.counts = new ExactMoments(COUNTS.length);
      this.ledger = new ExactMoments(columns);
      this.weekPicks = Array.from({ length: plan.weeks }, () => new Histogram());
      this.firstPickDay = new Histogram();
      this.discards = new Float64Array(plan.stages.length * plan.weeks);
      return;
    }
    this.seasons = data.seasons;
    this.counts = ExactMoments.from(COUNTS.length, data.counts);
    this.ledger = ExactMoments.from(columns, data.ledger);
    this.weekPicks = data.weeks.map((week) => Histogram.from(week));
    this.firstPickDay = Histogram.from(data.first);
    this.discards = Float64Array.from(data.discards);
  }
  add(season) {
    this.seasons++;
    this.counts.add(season.counts);
    this.ledger.add(season.ledger);
    for (let week = 0; week < this.weekPicks.length; week++)
      this.weekPicks[week].add(season.weekPicks[week]);
    for (let i = 0; i < this.discards.length; i++) this.discards[i] += season.weekDiscards[i];
    if (!Number.isNaN(season.firstPick)) this.firstPickDay.add(Math.floor(season.firstPick));
  }
  /** Take in all that `other`, of the same plan, has counted. */
  merge(other) {
    this.seasons += other.seasons;
    this.counts.merge(other.counts);
    this.ledger.merge(other.ledger);
    for (let week = 0; week < this.weekPicks.length; week++)
      this.weekPicks[week].merge(other.weekPicks[week]);
    this.firstPickDay.merge(other.firstPickDay);
    for (let i = 0; i < this.discards.length; i++) this.discards[i] += other.discards[i];
  }
  toData() {
    return {
      seasons: this.seasons,
      counts: this.counts.toData(),
      ledger: this.ledger.toData(),
      weeks: this.weekPicks.map((week) => week.toData()),
      first: this.firstPickDay.toData(),
      discards: [...this.discards]
    };
  }
};
function firstPickDay(tallies, p) {
  const picked = tallies.firstPickDay;
  const rank2 = p * (tallies.seasons - 1);
  if (rank2 > picked.total - 1) return null;
  return Math.round(picked.quantile(picked.total > 1 ? rank2 / (picked.total - 1) : 0));
}

// sim/seasons/workload-tallies.ts
var WorkloadTallies = class {
  #jobs;
  #sections;
  #trials;
  /** What `whole` gave last, until something is added. */
  #wholes;
  constructor(workload, data) {
    const { jobs, sections } = workload;
    this.#jobs = jobs;
    this.#sections = jobs.map(({ plan }, j) => {
      const tallies = data === void 0 ? [] : data[j].sections;
      return Array.from({ length: sections }, (_, s) => {
        const tally = tallies[s] ?? null;
        return tally === null ? null : new Tallies(plan, tally);
      });
    });
    this.#wholes = jobs.map(() => null);
    this.#trials = jobs.map((_, j) => data === void 0 ? [] : [...data[j].trials]);
  }
  /** The tallies of a section to be added to, made when they are first asked for. */
  section(job, section) {
    this.#wholes[job] = null;
    const sections = this.#sections[job];
    sections[section] ??= new Tallies(this.#jobs[job].plan);
    return sections[section];
  }
  /** Tallies of each section in which a season of this job was run. */
  sectionsOf(job) {
    return this.#sections[job];
  }
  /** All sections of a job in one, to be read only. */
  whole(job) {
    const before4 = this.#wholes[job];
    if (before4 !== null) return before4;
    const tallies = new Tallies(this.#jobs[job].plan);
    for (const section of this.#sections[job]) if (section !== null) tallies.merge(section);
    this.#wholes[job] = tallies;
    return tallies;
  }
  /** Trials of a job, in the order of the seasons. */
  trials(job) {
    return this.#trials[job];
  }
  addTrial(job, trial) {
    const trials = this.#trials[job];
    const at = trials.findLastIndex(({ season }) => season < trial.season) + 1;
    trials.splice(at, 0, trial);
  }
  /** Take in all that `other`, of the same workload and other seasons, has. */
  merge(other) {
    this.#jobs.forEach((_, j) => {
      other.#sections[j].forEach((section, s) => {
        if (section !== null) this.section(j, s).merge(section);
      });
      for (const trial of other.#trials[j]) this.addTrial(j, trial);
    });
  }
  toData() {
    return this.#jobs.map((_, j) => ({
      sections: this.#sections[j].map((section) => section?.toData() ?? null),
      trials: this.#trials[j]
    }));
  }
};

// sim/seasons/season-runner.ts
var KEPT_HOLES = 5e5;
var SeasonRunner = class {
  concurrency = 1;
  #workload;
  #changes;
  #lines = /* @__PURE__ */ new Map();
  #holes = 0;
  constructor(workload) {
    this.#workload = workload;
    this.#changes = workload.jobs.map(changesTried);
  }
  /**
   * Run and tally the seasons of a piece.
   * @returns null if stopped before the piece was done: what it had is dropped, so that all jobs keep the same seasons
   */
  async tally(chunk, step) {
    const { seed, sections, jobs } = this.#workload;
    const gathered = new WorkloadTallies(this.#workload);
    const section = chunk.first % sections;
    for (const [j, job] of jobs.entries()) {
      for (let k = 0; k < chunk.count; k++) {
        const season = chunk.first + k * sections;
        if (season >= job.seasons) break;
        const result = this.#line(`${j}`, () => job.plan).run(seed, season);
        gathered.section(j, section).add(result);
        const more = goOn(step);
        if (more !== true && !await more) return null;
        if (season < job.trials) {
          const trial = await this.#trial(j, season, result, step);
          if (trial === null) return null;
          gathered.addTrial(j, trial);
        }
      }
    }
    return gathered;
  }
  /**
   * Run seasons of one job and keep the picks of each of their weeks.
   * @returns week w of the i-th season at i x weeks + w; null if stopped
   */
  async weeks(j, first2, count, step) {
    const { plan } = this.#workload.jobs[j];
    const weeks = new Float64Array(count * plan.weeks);
    const line2 = this.#line(`${j}`, () => plan);
    for (let i = 0; i < count; i++) {
      weeks.set(line2.run(this.#workload.seed, first2 + i).weekPicks, i * plan.weeks);
      const more = goOn(step);
      if (more !== true && !await more) return null;
    }
    return weeks;
  }
  async close() {
  }
  async #trial(j, season, asItIs, step) {
    const { plan } = this.#workload.jobs[j];
    const { seed } = this.#workload;
    const base = [...asItIs.weekPicks];
    const picks = [base];
    for (const [c, change] of this.#changes[j].entries()) {
      if (cannotMatter(change, plan, asItIs)) picks.push(base);
      else picks.push([...this.#line(`${j} ${c}`, () => applied(plan, change)).run(seed, season).weekPicks]);
      const more = goOn(step);
      if (more !== true && !await more) return null;
    }
    return { season, picks };
  }
  /** The line of a name, kept from one season to the next while they fit. */
  #line(name, planOf) {
    const known3 = this.#lines.get(name);
    if (known3 !== void 0) return known3;
    const plan = planOf();
    const holes = plan.stages.reduce((sum, stage2) => sum + holesOf(stage2), 0);
    if (this.#holes + holes > KEPT_HOLES) {
      this.#lines.clear();
      this.#holes = 0;
    }
    const line2 = new Line(plan);
    this.#lines.set(name, line2);
    this.#holes += holes;
    return line2;
  }
};
function goOn(step) {
  return step?.(1) ?? true;
}

// sim/study/search/search.ts
import * as z2 from "zod";

// sim/models/result.ts
function success(value) {
  return { ok: true, value };
}
function failure(faults) {
  return { ok: false, faults };
}

// sim/study/unpack.ts
import * as z from "zod";
function unpacked(form, data) {
  const read = form.safeParse(data);
  if (read.success) return success(data);
  const path = read.error.issues[0].path.join(".");
  return failure([path === "" ? "its data are not there" : `its data are not whole at ${path}`]);
}
var numbers = z.array(z.number());

// sim/seasons/threads.ts
async function shareOut(hands, next2, work) {
  let stopped = false;
  const hand = async () => {
    while (!stopped) {
      const item = next2();
      if (item === void 0) return;
      if (!await work(item)) stopped = true;
    }
  };
  await Promise.all(Array.from({ length: hands }, hand));
  return !stopped;
}

// sim/study/search/candidate-runner.ts
var CandidateRunner = class {
  #pool;
  #pause;
  /** Seasons that there probably are in all, for the bar. */
  all = 0;
  /** Seasons that were run. */
  done = 0;
  /** true once somebody has said to stop. */
  stopped = false;
  constructor(pool, pause) {
    this.#pool = pool;
    this.#pause = pause;
  }
  /**
   * Run seasons of a candidate.
   * @param place of the candidate, which is also the number of its job
   * @returns picks of each week, season after season; null if stopped
   */
  async run(place, first2, count) {
    const picks = await this.#pool.weeks(place, first2, count, (runs) => {
      this.done += runs;
      return this.#pause?.(this.done, Math.max(this.done, this.all)) ?? null;
    });
    if (picks === null) this.stopped = true;
    return picks;
  }
  /**
   * Do a task for each that `next` gives, as many at the same time as there are hands.
   * @param next asked whenever a hand is free; undefined if there is no more to do
   */
  async inParallel(next2, task) {
    if (this.stopped) return;
    await shareOut(this.#pool.concurrency, next2, async (item) => {
      await task(item);
      return !this.stopped;
    });
  }
};

// sim/study/search/season-counter.ts
var SeasonCounter = class {
  good = [];
  #picks = new Histogram();
  #counting;
  constructor(counting, before4) {
    this.#counting = counting;
    if (before4 === void 0) return;
    this.good.push(...before4.good);
    this.#picks.merge(Histogram.from(before4.picks));
  }
  /**
   * @param picks of each week, season after season
   * @param season which of them to count
   * @returns share of good weeks of that season
   */
  add(picks, season) {
    const { heads, from, weeks } = this.#counting;
    let good = 0;
    for (let week = from; week < weeks; week++) {
      const picked = picks[season * weeks + week];
      this.#picks.add(picked);
      if (picked >= heads) good++;
    }
    this.good.push(good);
    return good / (weeks - from);
  }
  toData() {
    return { good: [...this.good], picks: this.#picks.toData() };
  }
};
function shareMet({ good }, { from, weeks }) {
  return good.reduce((sum, count) => sum + count, 0) / (good.length * (weeks - from));
}

// sim/engine/student.ts
function studentQuantile(p, df) {
  if (!(p > 0 && p < 1 && Number.isInteger(df) && df >= 1)) {
    throw new RangeError(`studentQuantile takes 0 < p < 1 and whole df >= 1: ${p}, ${df}`);
  }
  if (p < 0.5) return -studentQuantile(1 - p, df);
  if (p === 0.5) return 0;
  if (df === 1) return Math.tan(Math.PI * (p - 0.5));
  if (df === 2) return (2 * p - 1) * Math.sqrt(2 / (4 * p * (1 - p)));
  const z3 = normalQuantile(p);
  const z22 = z3 * z3;
  const z32 = z3 * z22;
  const z5 = z32 * z22;
  let t = z3 + (z32 + z3) / (4 * df) + (5 * z5 + 16 * z32 + 3 * z3) / (96 * df * df) + (3 * z5 * z22 + 19 * z5 + 17 * z32 - 15 * z3) / (384 * df * df * df);
  if (df > 1e3) return t;
  const lnFront = lnGamma((df + 1) / 2) - lnGamma(df / 2) - 0.5 * Math.log(df * Math.PI);
  for (let i = 0; i < 20; i++) {
    const density = Math.exp(lnFront - (df + 1) / 2 * Math.log1p(t * t / df));
    const step = (studentProbability(t, df) - p) / density;
    t -= step;
    if (Math.abs(step) <= 1e-13 * t) break;
  }
  return t;
}
function studentProbability(t, df) {
  const angle = Math.atan(t / Math.sqrt(df));
  const cosine = Math.cos(angle);
  const sine = Math.sin(angle);
  const odd = df % 2 === 1;
  let term = odd ? cosine : 1;
  let sum = term;
  for (let k = odd ? 3 : 2; k <= df - 2; k += 2) {
    term *= cosine * cosine * (k - 1) / k;
    sum += term;
  }
  const within = odd ? 2 / Math.PI * (angle + sine * sum) : sine * sum;
  return (1 + within) / 2;
}
var CONFIDENCE = 0.95;

// sim/study/search/betting-test.ts
var BettingTest = class {
  #p;
  #enough;
  #stakes = [];
  #purses;
  #given;
  /**
   * @param p the mean that the true one must be shown to be above
   * @param gap the evidence comes, sooner or later, if the true mean is at least p + gap; above 0
   * @param beta probability of evidence where there should be none
   */
  constructor(p, gap, beta) {
    this.#p = p;
    this.#given = !(p > 0);
    let stake = 1;
    this.#stakes.push(stake);
    while (stake > gap / (1 - p)) {
      stake /= 2;
      this.#stakes.push(stake);
    }
    this.#purses = this.#stakes.map(() => 1);
    this.#enough = this.#stakes.length / beta;
  }
  /** true once there was enough evidence; it stays so. */
  get conclusive() {
    return this.#given;
  }
  /** @param x a share, from 0 to 1 */
  add(x) {
    if (this.#given) return;
    const odds = (x - this.#p) / this.#p;
    let sum = 0;
    for (let i = 0; i < this.#purses.length; i++) {
      this.#purses[i] *= 1 + this.#stakes[i] * odds;
      sum += this.#purses[i];
    }
    this.#given = sum >= this.#enough;
  }
};

// sim/study/search/sequential-test.ts
function eta(beta, n0) {
  if (!(beta > 0 && beta < 0.5)) throw new RangeError(`beta must be above 0 and below 0.5: ${beta}`);
  if (!(Number.isInteger(n0) && n0 >= 2))
    throw new RangeError(`n0 must be a whole number of at least 2: ${n0}`);
  return (power(2 * beta, -2 / (n0 - 1)) - 1) / 2;
}
function boundaryAt({ eps, beta, n0 }, variance, r) {
  return Math.max(0, eta(beta, n0) * (n0 - 1) * variance / eps - eps * r / 2);
}
var SequentialTest = class {
  #design;
  #first = new Moments();
  #count = 0;
  /** Of the differences from q. */
  #sum = 0;
  /** @throws RangeError if `beta`, `n0` or `eps` is out of range */
  constructor(design) {
    eta(design.beta, design.n0);
    if (!(design.eps > 0)) throw new RangeError(`eps must be above 0: ${design.eps}`);
    this.#design = design;
  }
  /** @returns what this and all earlier observations say; null as long as they do not say */
  add(x) {
    const { q: q2, n0 } = this.#design;
    this.#count++;
    this.#sum += x - q2;
    if (this.#count <= n0) this.#first.add(x);
    if (this.#count < n0) return null;
    const far = boundaryAt(this.#design, this.#first.variance, this.#count);
    if (this.#sum >= far) return "meets";
    return this.#sum <= -far ? "misses" : null;
  }
};

// sim/study/search/selection.ts
var Feasibility = class {
  #region;
  #above;
  #below;
  #verdict = null;
  /**
   * @throws RangeError if `q` is not from 0 to 1, or `eps`, `beta` or `n0` is out of range (see `Standard`)
   */
  constructor(design) {
    const { q: q2, eps, beta } = design;
    if (!(q2 >= 0 && q2 <= 1)) throw new RangeError(`q must be a share from 0 to 1: ${q2}`);
    this.#region = new SequentialTest(design);
    this.#above = new BettingTest(q2 - eps, eps, beta);
    this.#below = new BettingTest(1 - q2 - eps, eps, beta);
  }
  /**
   * @param x figure of the next season, a share from 0 to 1
   * @returns null while more seasons are needed; a verdict stays
   * @throws RangeError if `x` is not a share
   */
  add(x) {
    if (!(x >= 0 && x <= 1)) throw new RangeError(`x must be a share from 0 to 1: ${x}`);
    if (this.#verdict !== null) return this.#verdict;
    this.#above.add(x);
    this.#below.add(1 - x);
    const says = this.#region.add(x);
    if (says === "meets" && this.#above.conclusive || says === "misses" && this.#below.conclusive)
      this.#verdict = says;
    return this.#verdict;
  }
};
function twoStageSampleSize(variance, eps, beta, n0) {
  const t = studentQuantile(1 - beta, n0 - 1);
  return Math.max(n0, Math.ceil(variance * (t / eps) ** 2));
}

// sim/study/search/candidate-test.ts
var CandidateTest = class {
  place;
  /** The verdict; null as long as more seasons are needed. */
  verdict = null;
  tie = null;
  #design;
  #test;
  #tally;
  #shares = new Moments();
  #first = null;
  #variance = Number.NaN;
  constructor(place, design, counting) {
    this.place = place;
    this.#design = design;
    this.#test = new Feasibility(design);
    this.#tally = new SeasonCounter(counting);
  }
  /** Seasons so far. */
  get seasons() {
    return this.#tally.good.length;
  }
  /** The verdict; as long as there is none, the one that the seasons so far point to. */
  get guess() {
    return this.verdict ?? (this.#shares.mean >= this.#design.q ? "meets" : "misses");
  }
  /** Take in seasons that follow one another; what comes after the verdict is not looked at. */
  add(picks, count) {
    for (let i = 0; i < count && this.verdict === null; i++) {
      const share = this.#tally.add(picks, i);
      this.#shares.add(share);
      this.verdict = this.#test.add(share);
      if (this.seasons === this.#design.n0) {
        this.#first = this.#tally.toData();
        this.#variance = this.#shares.variance;
      }
    }
  }
  /**
   * Seasons that a verdict will probably still take: until the sum of the differences from the goal, if it goes on as so far,
   * leaves the region. A guess, to plan the work by; no verdict rests on it.
   */
  get left() {
    if (this.verdict !== null) return 0;
    const { q: q2, eps } = this.#design;
    const speed = Math.abs(this.#shares.mean - q2) + eps / 2;
    return Math.max(0, Math.ceil(boundaryAt(this.#design, this.#variance, 0) / speed) - this.seasons);
  }
  /** All seasons so far, for somebody who goes on with them. */
  soFar() {
    return this.#tally.toData();
  }
  /** @returns null before the first seasons are complete */
  toData() {
    if (this.#first === null) return null;
    return {
      place: this.place,
      verdict: this.verdict,
      first: this.#first,
      judged: this.seasons > this.#design.n0 ? this.soFar() : null,
      tie: this.tie,
      obstacles: null,
      present: null
    };
  }
};

// sim/seasons/week-quantiles.ts
var UNSEEN = -Math.log((1 - CONFIDENCE) / 2);

// sim/study/figures.ts
var EMPTY = new Set(EMPTY_STATES.map((k) => STATES[k]));
var TABLE = [
  {
    name: "heads_a_week",
    label: "heads a week",
    short: "heads a week",
    column: "mean",
    unit: "heads",
    decimals: "few",
    better: "more",
    scope: "whole",
    of: ({ picks }) => picks.mean
  },
  {
    /** Half of all weeks bring at least this. */
    name: "usual_week",
    label: "heads in a usual week",
    short: "usual week",
    column: "usual",
    unit: "heads",
    decimals: 0,
    better: "more",
    scope: "whole",
    quantile: 0.5,
    of: ({ picks }) => picks.least(0.5)
  },
  {
    /** 1 week in 10 brings this or less. */
    name: "bad_week",
    label: "heads in a bad week",
    short: "bad week",
    column: "bad",
    unit: "heads",
    decimals: 0,
    better: "more",
    scope: "whole",
    quantile: 0.1,
    of: ({ picks }) => picks.least(0.1)
  },
  {
    name: "weeks_without_pick",
    label: "weeks without a pick",
    short: "without a pick",
    column: "none",
    unit: "%",
    decimals: 1,
    better: "less",
    scope: "whole",
    of: ({ picks }) => picks.shareUpTo(0)
  },
  {
    name: "seeds_a_head",
    label: "seeds a head",
    short: "seeds a head",
    column: "seeds a head",
    unit: "seeds",
    decimals: 2,
    better: "less",
    scope: "whole",
    of: ({ tallies }) => perHead(tallies, tallies.counts.mean(SOWN))
  },
  {
    /** Plants of a season that were ready for longer than they keep. */
    name: "thrown_away",
    label: "plants thrown away",
    short: "thrown away",
    column: "thrown away",
    unit: "plants",
    decimals: "few",
    better: "less",
    scope: "whole",
    of: ({ tallies }) => tallies.counts.mean(DISCARDED)
  },
  {
    /** Hole-days that are there, used or not, for each head. */
    name: "hole_days_a_head",
    label: "hole-days a head",
    short: "hole-days/head",
    column: "hole-days a head",
    unit: "hole-days",
    decimals: "few",
    better: "less",
    scope: "whole",
    of: ({ plan, tallies }) => perHead(tallies, holeDaysOf(plan))
  },
  {
    /** Days from the start, of the middle season. */
    name: "first_pick_day",
    label: "day of the first pick",
    short: "first pick",
    column: "first pick",
    unit: "day",
    decimals: 0,
    better: "less",
    scope: "whole",
    of: ({ tallies }) => firstPickDay(tallies, 0.5) ?? Number.NaN
  },
  {
    /** Share of the hole-days in which a hole stood empty and was not being cleaned. */
    name: "idle",
    label: "holes that stand empty",
    short: "empty",
    column: "empty",
    unit: "%",
    decimals: 1,
    better: "less",
    scope: "stage",
    of: (sample, stage2) => weightedHoleDays(sample, (state) => EMPTY.has(state) ? 1 : 0, stage2) / holeDaysOf(sample.plan, stage2)
  }
];
var FIGURES = TABLE;
function figureNamed(name) {
  return FIGURES.find((figure) => figure.name === name);
}
function holeDaysOf(plan, stage2) {
  return stagesAt(plan, stage2).reduce((sum, s) => sum + holesOf(plan.stages[s]), 0) * seasonDays(plan);
}
function weightedHoleDays({ plan, tallies: { ledger } }, weight, stage2) {
  let sum = 0;
  for (const s of stagesAt(plan, stage2)) {
    STATES.forEach((state, k) => {
      sum += weight(state, plan.stages[s]) * ledger.mean(s * STATE_COUNT + k);
    });
  }
  return sum;
}
function stagesAt({ stages }, stage2) {
  return stage2 === void 0 ? [...stages.keys()] : [stage2];
}
function perHead({ counts }, amount) {
  return amount / counts.mean(PICKED);
}

// sim/study/search/obstacles.ts
var OBSTACLES = ["want", "absence", "visits", "holes", "seeds"];
var HOLES = 10;
var SEEDS = 2;
async function obstaclesOf({ goal, ranked, counting, workload }, place, pause) {
  const { plan } = ranked[place].candidate;
  const known3 = OBSTACLES.filter((obstacle) => without(plan, obstacle) !== plan);
  const but = (kept) => known3.filter((obstacle) => obstacle !== kept);
  const taken = [...known3.map((obstacle) => [obstacle]), known3, ...known3.map(but)];
  const jobs = taken.map((obstacles2) => ({
    plan: obstacles2.reduce(without, plan),
    seasons: goal.first,
    trials: 0
  }));
  const runner = new SeasonRunner({ ...workload, jobs });
  const all = jobs.length * goal.first;
  let done = 0;
  const reliefs = [];
  for (const job of jobs.keys()) {
    const picks = await runner.weeks(job, 0, goal.first, (runs) => {
      done += runs;
      return pause?.(done, all) ?? null;
    });
    if (picks === null) return null;
    reliefs.push(reliefOf(picks, goal.first, counting, goal.weeksMet));
  }
  const alone = known3.map((obstacle, i) => ({ taken_away: obstacle, ...reliefs[i] }));
  const together = reliefs[known3.length];
  const enough = known3.filter((_, i) => reliefs[i].meets);
  const needed = known3.filter((_, i) => !reliefs[known3.length + 1 + i].meets);
  return {
    seasons: goal.first,
    alone,
    together,
    in_the_way: enough.length > 0 ? enough : together.meets ? needed : [],
    one_is_enough: enough.length > 0
  };
}
function without(plan, obstacle) {
  switch (obstacle) {
    case "want":
      return plan.want === null ? plan : { ...plan, want: null };
    case "absence":
      return neverAway(plan);
    case "visits": {
      const daily = visitedDaily(plan);
      const days = ({ visits }) => visits.kind === "days" ? visits.days.length : 0;
      return days(daily) === days(plan) ? plan : daily;
    }
    case "holes":
      return {
        ...plan,
        stages: plan.stages.map((stage2) => ({ ...stage2, channels: HOLES * stage2.channels }))
      };
    case "seeds": {
      if (plan.crops.every(({ sowing }) => sowing.kind === "refill")) return plan;
      const crops = plan.crops.map(
        ({ sowing, ...crop2 }) => sowing.kind === "due" ? { ...crop2, sowing: { ...sowing, seeds: SEEDS * sowing.seeds } } : { ...crop2, sowing }
      );
      return { ...plan, crops };
    }
  }
}
function reliefOf(picks, seasons, counting, goal) {
  const counter = new SeasonCounter(counting);
  for (let season = 0; season < seasons; season++) counter.add(picks, season);
  const counted2 = counter.toData();
  const met = shareMet(counted2, counting);
  const heads = figureNamed("heads_a_week").of({ picks: Histogram.from(counted2.picks) });
  return { weeks_met: met, heads_a_week: heads, meets: met >= goal };
}

// sim/study/search/order.ts
function* toJudge(places, priceOf, verdictOf, wanted) {
  let found = 0;
  let bestPrice = null;
  for (const place of places) {
    if (found >= wanted && priceOf(place) !== bestPrice) return;
    yield place;
    if (verdictOf(place) !== "meets") continue;
    found++;
    bestPrice ??= priceOf(place);
  }
}

// sim/study/search/present.ts
async function presentSeasons({ ranked, counting, workload }, place, seasons, pause) {
  const { plan } = ranked[place].candidate;
  const present = neverAway(plan);
  if (present === plan) return null;
  const runner = new SeasonRunner({ ...workload, jobs: [{ plan: present, seasons, trials: 0 }] });
  let done = 0;
  const picks = await runner.weeks(0, 0, seasons, (runs) => {
    done += runs;
    return pause?.(done, seasons) ?? null;
  });
  if (picks === null) return null;
  const counter = new SeasonCounter(counting);
  for (let season = 0; season < seasons; season++) counter.add(picks, season);
  return counter.toData();
}

// sim/models/dates.ts
var MS_PER_DAY = 864e5;
var YEARS = { least: 1900, most: 2999 };
var EXPECTED_DATE = `an existing date as YYYY-MM-DD (year ${YEARS.least} to ${YEARS.most}, month, day)`;
var ISO_DATE = /^(\d{4})-(\d{2})-(\d{2})$/;
function dayNumber(iso) {
  const [, year, month, day] = ISO_DATE.exec(iso) ?? [];
  const date = /* @__PURE__ */ new Date(0);
  date.setUTCFullYear(Number(year), Number(month) - 1, Number(day));
  if (!(date.getUTCMonth() + 1 === Number(month) && date.getUTCDate() === Number(day))) {
    throw new RangeError(`not an existing date as YYYY-MM-DD: ${iso}`);
  }
  return Math.round(date.getTime() / MS_PER_DAY);
}
function isoOfDay(start, day) {
  return new Date((dayNumber(start) + Math.floor(day)) * MS_PER_DAY).toISOString().slice(0, 10);
}

// sim/study/frontier.ts
function frontierOf(offers) {
  const order = offers.map((_, i) => i).sort((a, b) => offers[a].cost - offers[b].cost || offers[b].gain - offers[a].gain || a - b);
  let most = Number.NEGATIVE_INFINITY;
  return order.filter((i) => {
    const more = offers[i].gain > most;
    if (more) most = offers[i].gain;
    return more;
  });
}

// sim/study/search/frontier.ts
var STEP = 0.01;
function paretoFrontier(points) {
  const rough = (share) => Math.round(share / STEP);
  return frontierOf(points.map(([x, y]) => ({ cost: -rough(x), gain: rough(y) })));
}

// sim/study/search/interval.ts
var SMALLEST_STAKE = 1 / 64;
var HALVINGS = 30;
function shareEstimate(shares) {
  const mean = shares.reduce((sum, share) => sum + share, 0) / shares.length;
  const low = surelyAbove(shares);
  const high = 1 - surelyAbove(shares.map((share) => 1 - share));
  return { mean, low: Math.min(low, mean), high: Math.max(high, mean) };
}
function surelyAbove(shares) {
  let low = 0;
  let high = 1;
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (low + high) / 2;
    if (isAbove(shares, middle)) low = middle;
    else high = middle;
  }
  return low;
}
function isAbove(shares, p) {
  const evidence = new BettingTest(p, SMALLEST_STAKE * (1 - p), (1 - CONFIDENCE) / 2);
  for (const share of shares) {
    evidence.add(share);
    if (evidence.conclusive) return true;
  }
  return false;
}

// sim/study/search/sample-size.ts
function fullSampleSize(shares, { q: q2, eps, beta, n0 }) {
  const seen = new Moments();
  for (const share of shares) seen.add(share);
  const need = twoStageSampleSize(seen.variance, eps, beta, n0);
  if (seen.variance > 0) return need;
  const chance = seen.mean >= q2 ? q2 - eps : 1 - q2 - eps;
  return chance > 0 ? Math.max(need, Math.ceil(Math.log(beta) / Math.log(chance))) : need;
}

// sim/study/search/setting-values.ts
function settingValuesOf(settings) {
  const ascending = (numbers2) => distinct(numbers2).sort((a, b) => a - b);
  const stages = Object.keys(settings[0].channels ?? {});
  const all = {
    every: ascending(settings.map(({ every: every2 }) => every2)),
    on: distinct(settings.map(({ on }) => on)),
    seeds: ascending(settings.map(({ seeds }) => seeds)),
    channels: Object.fromEntries(
      stages.map((stage2) => [stage2, ascending(settings.map(({ channels }) => channels?.[stage2]))])
    ),
    visits: distinct(settings.map(({ visits }) => visits))
  };
  return Object.fromEntries(Object.entries(all).filter(([, values]) => Object.keys(values).length > 0));
}
function distinct(values) {
  const seen = /* @__PURE__ */ new Map();
  for (const value of values) if (value !== void 0) seen.set(JSON.stringify(value), value);
  return [...seen.values()];
}

// sim/study/search/result.ts
var HEADS = figureNamed("heads_a_week");
var BAD_WEEK = figureNamed("bad_week");
function concludeSearch(search, trials) {
  if (trials.length === 0) return null;
  const { goal, ranked, counting } = search;
  const { seed } = search.workload;
  const known3 = new Map(trials.map((trial) => [trial.place, trial]));
  const places = [...ranked.keys()];
  const priceOf = (place) => ranked[place].price;
  const verdictOf = (place) => known3.get(place)?.verdict ?? null;
  const judged = new Set(toJudge(places, priceOf, verdictOf, 1 + goal.runners));
  const meeting = [...judged].filter((place) => verdictOf(place) === "meets");
  const bestPrice = meeting.length === 0 ? null : priceOf(meeting[0]);
  const equals = meeting.filter((place) => priceOf(place) === bestPrice);
  const told = equals.some((place) => known3.get(place).tie !== null);
  const seasonsOf2 = (trial) => {
    if (!judged.has(trial.place)) return trial.first;
    return (equals.includes(trial.place) ? trial.tie : null) ?? trial.judged ?? trial.first;
  };
  const shareOf = (seasons) => shareMet(seasons, counting);
  const rowOf = (trial, seasons) => {
    const { candidate: candidate2, cost } = ranked[trial.place];
    const week = weekOf(seasons);
    const { heads_a_week: heads, bad_week: bad } = week;
    return {
      place: trial.place + 1,
      name: candidate2.name,
      settings: candidate2.settings,
      cost,
      // What the first seasons say is known whether it was asked for or not.
      verdict: judged.has(trial.place) || trial.judged === null ? trial.verdict : null,
      seasons: seasonsOf2(trial).good.length,
      weeks_met: shareOf(seasons),
      ...week,
      steadiness: heads > 0 ? bad / heads : 0
    };
  };
  const foundPlan = (place) => {
    const trial = known3.get(place);
    const seasons = seasonsOf2(trial);
    return {
      ...rowOf(trial, seasons),
      weeks_met: shareEstimate(sharesOf(search, seasons)),
      without_absence: null
    };
  };
  const namedPlan = (place) => {
    const { present } = known3.get(place);
    return { ...foundPlan(place), without_absence: present && weekOf(present) };
  };
  const inOrder = places.flatMap((place) => known3.get(place) ?? []);
  const plans = inOrder.map((trial) => rowOf(trial, trial.first));
  const byShare = [...equals].sort(
    (a, b) => shareOf(seasonsOf2(known3.get(b))) - shareOf(seasonsOf2(known3.get(a))) || a - b
  );
  const best = equals.find((place) => known3.get(place).tie?.picked) ?? byShare[0] ?? null;
  const others = [...byShare, ...meeting.filter((place) => !equals.includes(place))].filter(
    (place) => place !== best
  );
  const nearest = best === null ? nearestOf(search, inOrder) : null;
  const used = inOrder.reduce((sum, trial) => sum + seasonsOf2(trial).good.length, 0);
  const grid = inOrder.reduce(
    (sum, trial) => sum + fullSampleSize(sharesOf(search, trial.first), search.budget.design),
    0
  );
  const most = largest(plans.map(({ heads_a_week: heads }) => heads));
  const { plan } = ranked[0].candidate;
  return {
    title: plan.title,
    seed,
    goal: { heads: goal.heads, weeks_met: goal.weeksMet },
    least: goal.least,
    confidence: goal.confidence,
    near: goal.near,
    partial: trials.length < ranked.length || [...judged].some((place) => verdictOf(place) === null) || equals.length > 1 && !told,
    counted: { from: isoOfDay(plan.start, counting.from * 7), weeks: counting.weeks - counting.from },
    candidates: ranked.length,
    within: settingValuesOf(ranked.map(({ candidate: candidate2 }) => candidate2.settings)),
    first: goal.first,
    seasons: { used, full_grid: grid, ratio: grid / used },
    best: best === null ? null : namedPlan(best),
    same_cost: equals.length,
    runners_up: others.slice(0, goal.runners).map(foundPlan),
    nearest: nearest && namedPlan(nearest.place),
    obstacles: nearest?.obstacles ?? null,
    frontier: paretoFrontier(
      plans.map(({ heads_a_week: heads, steadiness }) => [heads / (most || 1), steadiness])
    ).map((i) => plans[i].place),
    plans
  };
}
function weekOf(seasons) {
  const picks = Histogram.from(seasons.picks);
  return { heads_a_week: HEADS.of({ picks }), bad_week: BAD_WEEK.of({ picks }) };
}
function sharesOf({ counting }, { good }) {
  return good.map((weeks) => weeks / (counting.weeks - counting.from));
}
function nearestOf({ counting }, trials) {
  const near = trials.map((trial) => {
    const seasons = trial.judged ?? trial.first;
    const heads = HEADS.of({ picks: Histogram.from(seasons.picks) });
    return { trial, share: shareMet(seasons, counting), heads };
  });
  return near.reduce(
    (best, one2) => one2.share > best.share || one2.share === best.share && one2.heads > best.heads ? one2 : best
  ).trial;
}

// sim/study/search/selection-elimination.ts
var Elimination = class {
  #options;
  #h2;
  #sums;
  /** Moments of x_i - x_l, l < i, over the first rows: entry [i][l]. */
  #differences;
  #rows = 0;
  #left;
  /** @throws RangeError if an option is out of range */
  constructor(options) {
    const { k, delta, alpha, n0 } = options;
    if (!(Number.isInteger(k) && k >= 2))
      throw new RangeError(`k must be a whole number of at least 2: ${k}`);
    if (!(delta > 0)) throw new RangeError(`delta must be above 0: ${delta}`);
    if (!(alpha > 0 && alpha < 0.5)) throw new RangeError(`alpha must be above 0 and below 0.5: ${alpha}`);
    this.#options = options;
    this.#h2 = 2 * eta(alpha / (k - 1), n0) * (n0 - 1);
    this.#sums = new Float64Array(k);
    this.#left = Array.from({ length: k }, (_, i) => i);
    this.#differences = this.#left.map((i) => Array.from({ length: i }, () => new Moments()));
  }
  /** The systems that are still in, ascending. */
  get left() {
    return this.#left;
  }
  /**
   * @param row one observation of each of the k systems; those of systems that are out are not looked at
   * @returns the pick; null while more rows are needed
   */
  add(row) {
    const { n0 } = this.#options;
    this.#rows++;
    for (const i of this.#left) this.#sums[i] += row[i];
    if (this.#rows <= n0) {
      this.#differences.forEach((moments, i) => {
        moments.forEach((moment, l) => {
          moment.add(row[i] - row[l]);
        });
      });
    }
    if (this.#rows < n0) return null;
    this.#left = this.#left.filter((i) => this.#left.every((l) => !this.#isBeaten(i, l)));
    const open = this.#left.some((i) => this.#left.some((l) => l < i && this.#lead(i, l) > 0));
    return open ? null : this.#left[0];
  }
  /** How far the mean of one of the two must be ahead now for the other to go. */
  #lead(i, l) {
    const { delta } = this.#options;
    const { variance } = this.#differences[Math.max(i, l)][Math.min(i, l)];
    const r = this.#rows;
    return Math.max(0, delta / (2 * r) * (this.#h2 * variance / delta ** 2 - r));
  }
  #isBeaten(i, l) {
    return i !== l && this.#sums[i] / this.#rows < this.#sums[l] / this.#rows - this.#lead(i, l);
  }
};

// sim/study/search/ties.ts
var STINT = 10;
async function tellApart(search, work, trials) {
  const { ranked, sizes, budget, counting } = search;
  const meeting = trials.filter(({ verdict }) => verdict === "meets");
  const price = meeting.length === 0 ? null : ranked[meeting[0].place].price;
  const equals = meeting.filter(({ place }) => ranked[place].price === price);
  if (price === null || equals.length < 2) return;
  const options = budget.tie(sizes[price], equals.length);
  const elimination = new Elimination(options);
  const rivals = equals.map((trial) => ({ trial, tally: new SeasonCounter(counting, trial.soFar()) }));
  const counted2 = counting.weeks - counting.from;
  for (let row = 0, pick2 = null; pick2 === null; row++) {
    const short = elimination.left.map((i) => rivals[i]).filter(({ tally }) => tally.good.length <= row);
    const upTo = Math.max(options.n0, row + STINT);
    await work.inParallel(
      () => short.pop(),
      async ({ trial, tally }) => {
        const count = upTo - tally.good.length;
        const picks = await work.run(trial.place, tally.good.length, count);
        for (let i = 0; picks !== null && i < count; i++) tally.add(picks, i);
      }
    );
    if (work.stopped) return;
    pick2 = elimination.add(rivals.map(({ tally }) => (tally.good[row] ?? 0) / counted2));
    if (pick2 !== null) {
      for (const [i, { trial, tally }] of rivals.entries())
        trial.tie = { ...tally.toData(), picked: i === pick2 };
    }
  }
}

// sim/study/search/carry-out.ts
var SHORTEST_STINT = 10;
var LONGEST_STINT = 200;
async function carryOutSearch(search, pool, shard, pause) {
  const { goal, ranked, budget, counting } = search;
  const work = new CandidateRunner(pool, pause);
  const places = [...ranked.keys()].filter((place2) => ranked[place2].price % shard.n === shard.k - 1);
  const trials = new Map(places.map((place2) => [place2, new CandidateTest(place2, budget.design, counting)]));
  const toJudgeBy = (verdictOf) => [...toJudge(places, (place2) => ranked[place2].price, verdictOf, 1 + goal.runners)].map(
    (place2) => trials.get(place2)
  );
  work.all = places.length * goal.first;
  await screen(work, [...trials.values()], goal.first);
  if (work.stopped) return known2(trials);
  work.all = work.done + toJudgeBy((place2) => trials.get(place2).guess).reduce((sum, trial) => sum + trial.left, 0);
  await judge(work, () => toJudgeBy((place2) => trials.get(place2).verdict));
  if (!work.stopped) await tellApart(search, work, [...trials.values()]);
  const results2 = known2(trials);
  if (work.stopped || results2.length === 0) return results2;
  const { best, nearest } = concludeSearch(search, results2);
  const named = best ?? nearest;
  const place = named.place - 1;
  const obstacles2 = best === null ? await obstaclesOf(search, place, pause) : null;
  const present = await presentSeasons(search, place, named.seasons, pause);
  return results2.map((result) => result.place === place ? { ...result, obstacles: obstacles2, present } : result);
}
function known2(trials) {
  return [...trials.values()].flatMap((trial) => trial.toData() ?? []);
}
async function screen(work, trials, first2) {
  let next2 = 0;
  await work.inParallel(
    () => trials[next2++],
    async (trial) => {
      const picks = await work.run(trial.place, 0, first2);
      if (picks !== null) trial.add(picks, first2);
    }
  );
}
async function judge(work, needed) {
  const begun = /* @__PURE__ */ new Set();
  await work.inParallel(
    () => {
      const next2 = needed().find((trial) => trial.verdict === null && !begun.has(trial));
      if (next2 !== void 0) begun.add(next2);
      return next2;
    },
    async (trial) => {
      while (trial.verdict === null && !work.stopped) {
        const stint = Math.min(LONGEST_STINT, Math.max(SHORTEST_STINT, Math.ceil(trial.left / 2)));
        const picks = await work.run(trial.place, trial.seasons, stint);
        if (picks !== null) trial.add(picks, stint);
      }
    }
  );
}

// sim/study/search/candidates.ts
function costOf({ plan, seedsAWeek, visitsAWeek }) {
  const areas = plan.stages.map((stage2) => stage2.holeAreaCm2);
  return {
    holes: plan.stages.reduce((sum, stage2) => sum + holesOf(stage2), 0),
    seeds_a_week: seedsAWeek === null ? null : rounded(seedsAWeek),
    lit_m2: areas.includes(null) ? null : rounded(plan.stages.reduce((sum, stage2, s) => sum + holesOf(stage2) * areas[s] / 1e4, 0)),
    visits_a_week: visitsAWeek
  };
}
function rounded(value) {
  return Number(value.toPrecision(12));
}
function rank(candidates, least) {
  const costs = candidates.map((candidate2) => pricesOf(costOf(candidate2), least));
  if (costs.some(([chosen]) => chosen === null))
    throw new RangeError(`what the candidates cost in ${least} is not known`);
  const order = candidates.map((_, i) => i).sort((a, b) => compare(costs[a], costs[b]) || a - b);
  let price = 0;
  return order.map((i, place) => {
    if (place > 0 && compare(costs[order[place - 1]], costs[i]) !== 0) price++;
    return { candidate: candidates[i], cost: costOf(candidates[i]), price };
  });
}
function priceSizes(ranked) {
  const sizes = [];
  for (const { price } of ranked) sizes[price] = (sizes[price] ?? 0) + 1;
  return sizes;
}
function pricesOf(cost, least) {
  const { holes, seeds_a_week: seeds, lit_m2: light, visits_a_week: visits } = cost;
  return [{ holes, seeds, light }[least], holes, seeds, light, visits];
}
function compare(a, b) {
  for (const [i, cost] of a.entries()) {
    const difference = (cost ?? 0) - (b[i] ?? 0);
    if (difference !== 0) return difference;
  }
  return 0;
}

// sim/study/search/budget.ts
function budgetOf(ranked, goal) {
  const { weeksMet: q2, near: eps, first: n0, confidence } = goal;
  const alpha = 1 - confidence;
  const shared = priceSizes(ranked).filter((size) => size > 1).length;
  const verdicts = shared > 0 ? alpha / 2 : alpha;
  return {
    design: { q: q2, eps, beta: verdicts / ranked.length, n0 },
    tie: (size, meeting) => {
      const rival = alpha / 2 / shared / (size - 1);
      return {
        k: meeting,
        delta: eps,
        // Each pair gets half of what its rival has; the other half is for what the first seasons hide.
        alpha: rival / 2 * (meeting - 1),
        n0: Math.max(n0, Math.ceil(Math.log(rival / 2) / Math.log1p(-eps)))
      };
    }
  };
}

// sim/study/search/weeks.ts
var DEVIATIONS = 2;
function firstCountedWeek(plans) {
  return Math.ceil(largest(plans.map(settledDay)) / 7);
}
function settledDay(plan) {
  const days = plan.crops.map((crop2) => firstSowing(crop2) + throughDays(crop2) + longestGap(plan));
  const sown = days.filter((day) => Number.isFinite(day));
  return sown.length === 0 ? Number.POSITIVE_INFINITY : largest(sown);
}
function firstSowing({ sowing }) {
  if (sowing.kind === "refill") return 0;
  return sowing.days[0] ?? Number.POSITIVE_INFINITY;
}
function throughDays({ stages }) {
  const mean = stages.reduce((sum, { time: time2 }) => sum + time2.days, 0);
  const variance = stages.reduce((sum, { time: time2 }) => sum + (time2.days * time2.spread) ** 2, 0);
  return mean + DEVIATIONS * Math.sqrt(variance);
}
function longestGap({ visits }) {
  if (visits.kind === "always") return 0;
  if (visits.days.length === 0) return Number.POSITIVE_INFINITY;
  return largest(visits.days.map((day, i) => day - (i === 0 ? 0 : visits.days[i - 1])));
}

// sim/study/search/setup.ts
function setUpSearch(candidates, goal, seed) {
  const plans = candidates.map(({ plan }) => plan);
  const from = firstCountedWeek(plans);
  const { weeks } = plans[0];
  if (!(from < weeks)) throw new RangeError(`no week counts: ${from} of ${weeks}`);
  const ranked = rank(candidates, goal.least);
  return {
    goal,
    ranked,
    sizes: priceSizes(ranked),
    counting: { heads: goal.heads, from, weeks },
    budget: budgetOf(ranked, goal),
    workload: {
      seed,
      sections: 1,
      jobs: ranked.map(({ candidate: candidate2 }) => ({ plan: candidate2.plan, seasons: goal.first, trials: 0 }))
    }
  };
}

// sim/study/search/search.ts
function searchStudy(candidates, goal, seed) {
  const search = setUpSearch(candidates, goal, seed);
  return {
    workload: search.workload,
    carryOut: (pool, shard, pause) => carryOutSearch(search, pool, shard, pause),
    pack: (trials) => trials,
    unpack: (parts) => joined(parts, candidates.length),
    conclude: (trials) => concludeSearch(search, trials)
  };
}
var counted = z2.object({ good: z2.array(z2.number()), picks: z2.array(z2.number()) });
var relief = z2.object({ weeks_met: z2.number(), heads_a_week: z2.number(), meets: z2.boolean() });
var obstacles = z2.object({
  seasons: z2.int().min(1),
  alone: z2.array(z2.object({ taken_away: z2.enum(OBSTACLES), ...relief.shape })),
  together: relief,
  in_the_way: z2.array(z2.enum(OBSTACLES)),
  one_is_enough: z2.boolean()
});
var results = z2.array(
  z2.object({
    place: z2.int().min(0),
    verdict: z2.enum(["meets", "misses"]).nullable(),
    first: counted,
    judged: counted.nullable(),
    tie: counted.extend({ picked: z2.boolean() }).nullable(),
    obstacles: obstacles.nullable(),
    present: counted.nullable()
  })
);
function joined(parts, candidates) {
  const trials = [];
  for (const part of parts) {
    const read = unpacked(results, part);
    if (!read.ok) return read;
    trials.push(...read.value);
  }
  const places = new Set(trials.map(({ place }) => place));
  for (let place = 0; place < candidates; place++) {
    if (!places.has(place)) return failure([`plan ${place + 1} of ${candidates} is not there`]);
  }
  if (trials.length > candidates) return failure([`there are ${trials.length} plans, not ${candidates}`]);
  return success(trials);
}

// sim/study/study.ts
var WHOLE = { k: 1, n: 1 };

// tests/support/plans.ts
function time(days, spread = 0, shape = "lognormal") {
  return { shape: spread === 0 ? "fixed" : shape, days, spread, times: [] };
}
function grow2(growth, rest = {}) {
  return { time: growth, loss: 0, keeps: Infinity, ...rest };
}
function stage(name, holes, cleanDays = 0) {
  return { name, channels: 1, holesPerChannel: holes, holeAreaCm2: null, cleanDays };
}
function crop(stages, sowing, rest = {}) {
  return { name: "leaf", germination: 1, cuts: 1, regrow: null, headG: null, stages, sowing, ...rest };
}
function every(k, days, seeds, missed = "made_up") {
  return { kind: "due", days: Array.from({ length: Math.ceil(days / k) }, (_, i) => i * k), seeds, missed };
}
var always = { kind: "always" };
function visitDays(weeks, pattern = [1]) {
  const days = Array.from({ length: weeks * 7 }, (_, day) => day);
  return { kind: "days", days: days.filter((day) => pattern[day % pattern.length] === 1) };
}
function line(stages, crops, rest) {
  const want = null;
  return { title: "test line", start: "2027-01-04", seed: 1, visits: always, want, stages, crops, ...rest };
}

// tests/study/search/claim.test.ts
var REPEATS = 500;
var WEEKS = 12;
var MONDAYS = visitDays(WEEKS, [1, 0, 0, 0, 0, 0, 0]);
function atLeast(n, p, k) {
  let sum = 0;
  for (let i = k; i <= n; i++) {
    let ways = 1;
    for (let j = 0; j < i; j++) ways = ways * (n - j) / (j + 1);
    sum += ways * p ** i * (1 - p) ** (n - i);
  }
  return sum;
}
function germinationWith(excess, low, high) {
  expect([excess(low) < 0, excess(high) > 0]).toEqual([true, true]);
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (excess(middle) < 0) low = middle;
    else high = middle;
  }
  return high;
}
function weekly(seeds, germination, holes = 50, days = 7) {
  const sowing = every(days, 7 * WEEKS, seeds);
  return line([stage("tray", holes)], [crop([grow2(time(7))], sowing, { germination })], {
    weeks: WEEKS,
    visits: MONDAYS
  });
}
function once(seeds, germination) {
  const sowing = { kind: "due", days: [0], seeds };
  const leaf = crop([grow2(time(7))], sowing, { germination, cuts: 50, regrow: grow2(time(7)) });
  return line([stage("tray", 20)], [leaf], { weeks: WEEKS, visits: MONDAYS });
}
function candidate(name, plan, seedsAWeek) {
  return { name, settings: {}, plan, seedsAWeek, visitsAWeek: 1 };
}
var GOAL = {
  heads: 9,
  weeksMet: 0.9,
  least: "seeds",
  confidence: 0.95,
  near: 0.05,
  first: 20,
  runners: 0
};
async function repeated(candidates, goal, right) {
  let found = 0;
  let used = 0;
  let grid = 0;
  for (let seed = 0; seed < REPEATS; seed++) {
    const study = searchStudy(candidates, goal, seed);
    const trials = await study.carryOut(new SeasonRunner(study.workload), WHOLE);
    const { best, seasons } = study.conclude(trials);
    if (best?.name === right) found++;
    used += seasons.used;
    grid += seasons.full_grid;
  }
  return { right: found / REPEATS, ratio: grid / used };
}
describe("the right plan is found at least as often as is claimed", () => {
  test.each([0.8, 0.95])(
    "where plans are as hard to tell apart as the claim allows (claimed: %d)",
    async (confidence) => {
      const { near, heads } = GOAL;
      const germination = germinationWith(
        (p) => 2.001 * near - atLeast(14, p, heads) + atLeast(13, p, heads),
        0.7,
        0.9
      );
      const [misses, meets] = [atLeast(13, germination, heads), atLeast(14, germination, heads)];
      const weeksMet = (misses + meets) / 2;
      expect(meets - weeksMet).toBeGreaterThan(near);
      const plans = [14, 13].map((n) => candidate(`${n} seeds`, weekly(n, germination), n));
      const { right } = await repeated(plans, { ...GOAL, weeksMet, confidence }, "14 seeds");
      expect(right).toBeGreaterThanOrEqual(confidence);
    }
  );
  test("among many plans, with more than 4 times fewer seasons than the full grid", async () => {
    const numbers2 = Array.from({ length: 8 }, (_, i) => 9 + i);
    const plans = [100, 50].flatMap(
      (holes) => numbers2.map((n) => candidate(`${n} seeds, ${holes} holes`, weekly(n, 0.85, holes), n))
    );
    const goal = { ...GOAL, weeksMet: 0.88, near: 0.02 };
    expect(atLeast(11, 0.85, 9)).toBeLessThan(goal.weeksMet - goal.near);
    expect(atLeast(12, 0.85, 9)).toBeGreaterThan(goal.weeksMet + goal.near);
    const { right, ratio } = await repeated(plans, goal, "12 seeds, 50 holes");
    expect(right).toBeGreaterThanOrEqual(goal.confidence);
    expect(ratio).toBeGreaterThan(4);
  });
  test("where whole seasons fail, so that the first ones may all have been good by luck", async () => {
    const plans = [1, 2].map((n) => candidate(`${n} seeds`, once(n, 0.85), n));
    const goal = { ...GOAL, heads: 1, weeksMet: 0.91, confidence: 0.99 };
    expect(0.85).toBeLessThan(goal.weeksMet - goal.near);
    expect(1 - 0.15 ** 2).toBeGreaterThan(goal.weeksMet + goal.near);
    const { right } = await repeated(plans, goal, "2 seeds");
    expect(right).toBeGreaterThanOrEqual(goal.confidence);
  });
  test.each([
    { better: "every week", by: 1 },
    { better: "every other week", by: -1 }
  ])(
    "where plans cost the same: the one that meets the goal in more weeks ($better)",
    async ({ better, by }) => {
      const germination = germinationWith(
        (p) => atLeast(10, p, 8) - atLeast(20, p, 8) / 2 - by * 1.02 * GOAL.near,
        0.5,
        0.9
      );
      const weeks = candidate("every week", weekly(10, germination), 10);
      const others = candidate("every other week", weekly(20, germination, 50, 14), 10);
      const plans = by > 0 ? [others, weeks] : [weeks, others];
      const goal = { ...GOAL, heads: 8, weeksMet: 0.35 };
      const { right } = await repeated(plans, goal, better);
      expect(right).toBeGreaterThanOrEqual(goal.confidence);
    }
  );
  test("where plans cost the same and one fails in rare seasons only", async () => {
    const plans = [candidate("rarely fails", once(1, 0.93), 1), candidate("never fails", once(1, 1), 1)];
    const { right } = await repeated(plans, { ...GOAL, heads: 1, weeksMet: 0.8 }, "never fails");
    expect(right).toBeGreaterThanOrEqual(GOAL.confidence);
  });
});
test("a plan that fails everywhere gets the first seasons and no more", async () => {
  const plans = [5, 6, 7, 14].map((n) => candidate(`${n} seeds`, weekly(n, 0.9), n));
  const study = searchStudy(plans, GOAL, 1);
  const result = study.conclude(
    await study.carryOut(new SeasonRunner(study.workload), WHOLE)
  );
  expect(result.best?.name).toBe("14 seeds");
  expect(result.plans.slice(0, 3).map(({ verdict, seasons }) => [verdict, seasons])).toEqual([
    ["misses", 20],
    ["misses", 20],
    ["misses", 20]
  ]);
});

// _b.mts
await runAll();
