// ../../../tmp/shim.mjs
var q = [];
var before = [];
var any = new Proxy(function() {
}, { get: () => any, apply: () => any });
var expect = any;
var only = process.env.ONLY ? new RegExp(process.env.ONLY) : null;
function test(name2, a, b) {
  const f = typeof a === "function" ? a : b;
  q.push([String(name2), f]);
}
test.each = (rows) => (name2, f) => rows.forEach((r) => test(name2 + JSON.stringify(r), () => Array.isArray(r) ? f(...r) : f(r)));
test.skip = () => {
};
test.for = test.each;
function describe(name2, f) {
  const r = f();
  return r;
}
describe.each = (rows) => (name2, f) => rows.forEach((r) => Array.isArray(r) ? f(...r) : f(r));
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

// sim/engine/random.ts
import alea from "seedrandom/lib/alea.js";
var HALF_CELL = 2 ** -33;
function streamKey(name2) {
  const text = JSON.stringify(name2);
  let a = 2166136261;
  let b = 2654435769;
  for (let i = 0; i < text.length; i++) {
    const code = text.charCodeAt(i);
    a = Math.imul(a ^ code, 16777619);
    b = Math.imul(b ^ code, 1540483477);
  }
  return (a >>> 0).toString(36) + (b >>> 0).toString(36).padStart(7, "0");
}
function stream(seed, season, name2) {
  return streamAt(seed, season, streamKey(name2));
}
function streamAt(seed, season, key) {
  return alea(addressOf(seed, season, key));
}
function addressOf(seed, season, key) {
  return `${seed} ${season} ${key}`;
}
function fillUniform(source, out, n) {
  for (let i = 0; i < n; i++) out[i] = source() + HALF_CELL;
}
function openStream(seed, season, name2) {
  const source = stream(seed, season, name2);
  const one2 = new Float64Array(1);
  return () => {
    fillUniform(source, one2, 1);
    return one2[0];
  };
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

// sim/models/dates.ts
var MS_PER_DAY = 864e5;
var WEEKDAYS = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"];
var YEARS = { least: 1900, most: 2999 };
var EXPECTED_DATE = `an existing date as YYYY-MM-DD (year ${YEARS.least} to ${YEARS.most}, month, day)`;
var ISO_DATE = /^(\d{4})-(\d{2})-(\d{2})$/;
function dayNumber(iso2) {
  const [, year, month, day] = ISO_DATE.exec(iso2) ?? [];
  const date2 = /* @__PURE__ */ new Date(0);
  date2.setUTCFullYear(Number(year), Number(month) - 1, Number(day));
  if (!(date2.getUTCMonth() + 1 === Number(month) && date2.getUTCDate() === Number(day))) {
    throw new RangeError(`not an existing date as YYYY-MM-DD: ${iso2}`);
  }
  return Math.round(date2.getTime() / MS_PER_DAY);
}
function isIsoDate(text) {
  try {
    dayNumber(text);
    return true;
  } catch {
    return false;
  }
}
function isExpectedDate(text) {
  const year = Number(text.slice(0, 4));
  return isIsoDate(text) && year >= YEARS.least && year <= YEARS.most;
}
function dayFrom(start, iso2) {
  return dayNumber(iso2) - dayNumber(start);
}
function isoOfDay(start, day) {
  return new Date((dayNumber(start) + Math.floor(day)) * MS_PER_DAY).toISOString().slice(0, 10);
}
function weekdayOfDay(start, day) {
  return ((dayNumber(start) + day + 3) % 7 + 7) % 7;
}
function whyNoDate(text) {
  const parts = ISO_DATE.exec(text);
  if (parts === null || isIsoDate(text)) return null;
  const [year, month] = [Number(parts[1]), Number(parts[2])];
  if (!(month >= 1 && month <= 12)) return "A year has the months 01 to 12.";
  const lastDay = new Date(Date.UTC(2e3 + year % 400, month, 0)).getUTCDate();
  return `${parts[1]}-${parts[2]} has the days 01 to ${lastDay}.`;
}

// sim/engine/clock.ts
var TICKS_PER_DAY = 2 ** 24;
var TICK = 1 / TICKS_PER_DAY;
function toGrid(days2) {
  return Math.round(days2 * TICKS_PER_DAY) * TICK;
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
    let z8;
    if (r <= 5) {
      r -= 1.6;
      z8 = (((((((7745450142783414e-19 * r + 0.022723844989269184) * r + 0.2417807251774506) * r + 1.2704582524523684) * r + 3.6478483247632045) * r + 5.769497221460691) * r + 4.630337846156546) * r + 1.4234371107496835) / (((((((10507500716444169e-25 * r + 5475938084995345e-19) * r + 0.015198666563616457) * r + 0.14810397642748008) * r + 0.6897673349851) * r + 1.6763848301838038) * r + 2.053191626637759) * r + 1);
    } else {
      r -= 5;
      z8 = (((((((20103343992922881e-23 * r + 27115555687434876e-21) * r + 0.0012426609473880784) * r + 0.026532189526576124) * r + 0.29656057182850487) * r + 1.7848265399172913) * r + 5.463784911164114) * r + 6.657904643501103) / (((((((20442631033899397e-31 * r + 1421511758316446e-22) * r + 18463183175100548e-21) * r + 7868691311456133e-19) * r + 0.014875361290850615) * r + 0.1369298809227358) * r + 0.599832206555888) * r + 1);
    }
    values[i] = q2 < 0 ? -z8 : z8;
  }
}
var ROOT_2PI = 2.5066282746310002;
var FAR = 7.07106781186547;
function normalBeyond(z8) {
  return z8 < 0 ? 1 - tail(-z8) : tail(z8);
}
function normalBelow(z8) {
  return z8 > 0 ? 1 - tail(z8) : tail(-z8);
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
  const z8 = x - 1;
  let sum = LANCZOS[0];
  for (let i = 1; i < LANCZOS.length; i++) sum += LANCZOS[i] / (z8 + i);
  const t = z8 + LANCZOS_G + 0.5;
  return HALF_LN_2PI + (z8 + 0.5) * Math.log(t) - t + Math.log(sum);
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
  const z8 = p < 0.5 ? normalQuantile(p) : -normalQuantile(q2);
  const root = 1 - 1 / (9 * a) + z8 / (3 * Math.sqrt(a));
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
function shareOfAny(share2) {
  return (t) => t > 0 ? t < Infinity ? share2(t) : 1 : 0;
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
  const z8 = (t) => (Math.log(t) - mu) / sigma;
  const inverse = Math.exp(variance / 2 - mu);
  return {
    quantile: (u) => Math.exp(mu + sigma * normalQuantile(u)),
    fill: (values, n) => {
      normalQuantiles(values, n);
      for (let i = 0; i < n; i++) values[i] = Math.exp(mu + sigma * values[i]);
    },
    share: shareOfAny((t) => normalBelow(z8(t))),
    beyond: (t) => normalBeyond(z8(t)),
    logDensity: (t) => -0.5 * z8(t) ** 2 - HALF_LN_2PI - Math.log(sigma * t),
    endedBy: (t) => normalBelow(z8(t)) + t * inverse * normalBeyond(z8(t) + sigma)
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
  const shape2 = 1 / (cv * cv);
  const scale = mean / shape2;
  const lnFront = lnGamma(shape2);
  let table = null;
  return {
    quantile: (u) => scale * gammaQuantile(u, shape2),
    fill: (values, n) => {
      table ??= gammaTable(shape2, scale);
      interpolate(table, values, n);
    },
    share: shareOfAny((t) => regularisedGamma(shape2, t / scale)),
    beyond: (t) => regularisedGamma(shape2, t / scale, true),
    logDensity: (t) => (shape2 - 1) * Math.log(t / scale) - t / scale - lnFront - Math.log(scale),
    endedBy: (t) => {
      const x = t / scale;
      const inverse = shape2 > 1.5 ? regularisedGamma(shape2 - 1, x, true) / (shape2 - 1) : upperGamma(shape2 - 1, x) / Math.exp(lnFront);
      return regularisedGamma(shape2, x) + x * inverse;
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
  const time2 = (z9) => {
    const root = middle + deviation * z9;
    return mean * root * root * root;
  };
  const z8 = (t) => (Math.cbrt(t / mean) - middle) / deviation;
  return {
    quantile: (u) => time2(normalQuantile(u)),
    fill: (values, n) => {
      normalQuantiles(values, n);
      for (let i = 0; i < n; i++) values[i] = time2(values[i]);
    },
    share: shareOfAny((t) => normalBelow(z8(t))),
    beyond: (t) => normalBeyond(z8(t)),
    // dz/dt = cbrt(t / mean) / (3 t deviation)
    logDensity: (t) => Math.log(Math.cbrt(t / mean) / (t * cv)) - 0.5 * z8(t) * z8(t) - HALF_LN_2PI,
    // E[1/T; T > t]: weighted by 1/T it is a gamma law again, of shape 1/CV^2 - 1 and the same scale.
    endedBy: (t) => {
      const inverse = 1 / (mean * (1 - cv * cv));
      const narrower = cv / Math.sqrt(1 - cv * cv);
      const beyond = normalBeyond(
        (Math.cbrt(t * inverse) - (1 - narrower * narrower / 9)) / (narrower / 3)
      );
      return normalBelow(z8(t)) + t * inverse * beyond;
    }
  };
}
function gammaTable(shape2, scale) {
  const pieces = 2 * Z_LIMIT * PIECES_PER_Z;
  const table = new Float64Array(DEGREES * pieces);
  const lnFront = lnGamma(shape2);
  const step = 1 / PIECES_PER_Z;
  const knot = (i, start) => {
    const z8 = i * step - Z_LIMIT;
    const tail2 = regularisedGamma(0.5, z8 * z8 / 2, true) / 2;
    const x = z8 < 0 ? gammaQuantile(tail2, shape2, 1 - tail2, start) : gammaQuantile(1 - tail2, shape2, tail2, start);
    const slope = Math.exp(-0.5 * z8 * z8 - HALF_LN_2PI - (shape2 * Math.log(x) - x - lnFront));
    const bend = slope * (-z8 - (shape2 - x) * slope);
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
  constructor(growing2, germination, name2) {
    this.#law = lawOf(growing2.time);
    this.#varies = growing2.time.shape !== "fixed" && !(growing2.time.shape !== "observed" && growing2.time.spread === 0);
    this.#loss = growing2.loss;
    this.#germination = germination;
    this.#keys = {
      time: streamKey([...name2, "time"]),
      loss: streamKey([...name2, "loss"]),
      moment: streamKey([...name2, "moment"]),
      sprouting: streamKey([...name2, "sprouting"])
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
function note(line, event, stage2, hole) {
  const { observer, queue, holes } = line;
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
  const days2 = draws.times[k];
  const moment = draws.moments[k];
  const fate = draws.sprouts[k] === 0 ? FAIL : moment < 1 ? DIE : RIPEN;
  stage2.growing++;
  stage2.touched = true;
  holes.fate[hole] = fate;
  queue.schedule(hole, queue.now + (fate === DIE ? toGrid(moment * days2) : days2));
}
function enter(line, stage2, c, plant) {
  const hole = occupy(line, stage2, c, plant);
  note(line, "move", stage2, hole);
  grow(line, stage2, hole, stage2.crops[c].draws);
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
function seedsDueOf({ sowing }) {
  if (sowing.kind !== "due") return 0;
  const more = sowing.more?.reduce((all, seeds2) => all + seeds2, 0) ?? 0;
  return sowing.seeds * sowing.days.length + more;
}
function holesOf(stage2) {
  return stage2.channels * stage2.holesPerChannel;
}
function growingOf(crop2, stage2, picks) {
  return picks === 0 ? crop2.stages[stage2] : crop2.regrow;
}
function seasonDays(plan) {
  return plan.weeks * 7;
}

// sim/models/visits.ts
function meanWait(days2, end, open = 0) {
  let sum = 0;
  let squares = 0;
  for (let i = 0; i < days2.length; i++) {
    const gap = (i + 1 < days2.length ? days2[i + 1] : end) - days2[i];
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
  const { days: days2 } = plan.want;
  const open = plan.visits.kind === "always" ? 1 : 0;
  let longest = 0;
  for (let i = 1; i < days2.length; i++) longest = Math.max(longest, days2[i] - days2[i - 1] - open);
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
  const days2 = crop2.stages[s].time.days;
  if (!isLast(crop2, s)) return days2 + meanWaitForVisit(plan);
  return days2 + wait + (crop2.cuts - 1) * ((crop2.regrow?.time.days ?? 0) + wait);
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
function seedsToRefill(refill2, t, gap, standing) {
  let expected = 0;
  for (let s = 0; s < refill2.chances.length; s++) expected += refill2.chances[s] * standing(s);
  const missing2 = refill2.rate * Math.min(t + gap, refill2.stay) - expected;
  return refill2.chances[0] > 0 ? Math.max(0, Math.ceil(missing2 / refill2.chances[0] - 1e-9)) : 0;
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
function visit(line) {
  takeBack(line);
  clear(line);
  discard(line);
  pick(line);
  moveOn(line);
  if (line.calendar.sowingDue) sowDue(line);
  if (line.calendar.refillDue) sowRefills(line);
  see(line);
  if (line.always) watchKeeps(line);
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
function clear(line) {
  const { holes, stages } = line;
  for (let s = 0; s < stages.length; s++) {
    const stage2 = stages[s];
    let hole = stage2.deadHead;
    stage2.deadHead = -1;
    while (hole >= 0) {
      const next2 = holes.after[hole];
      stage2.dead--;
      note(line, "clear", stage2, hole);
      vacate(line, stage2, hole);
      hole = next2;
    }
  }
}
function discard(line) {
  const { always, crops, holes, queue, books } = line;
  const limit = always ? queue.now + TICK : queue.now;
  for (let i = 0; i < crops.length; i++) {
    const crop2 = crops[i];
    if (always && !crop2.keepsOver) continue;
    crop2.keepsOver = false;
    while (crop2.readyHead >= 0 && holes.readyAt[crop2.readyHead] + crop2.keeps < limit) {
      const hole = takeReady(line, crop2);
      crop2.standing--;
      books.counts[DISCARDED]++;
      books.season.weekDiscards[crop2.stage.place * line.plan.weeks + Math.floor(queue.now / 7)]++;
      note(line, "discard", crop2.stage, hole);
      vacate(line, crop2.stage, hole);
    }
  }
}
function pick(line) {
  const { holes, last: stage2, calendar, books } = line;
  const limited = calendar.quota !== Infinity;
  while (stage2.ready > 0 && calendar.quota > 0) {
    const crop2 = holes.longestReady(stage2);
    const hole = takeReady(line, crop2);
    countPick(line, stage2, hole);
    if (limited) {
      calendar.quota--;
      books.counts[SHORT]--;
    }
    if (--holes.cutsLeft[hole] > 0) grow(line, stage2, hole, line.regrowDraws[crop2.c]);
    else {
      books.counts[PICKED_OUT]++;
      crop2.standing--;
      vacate(line, stage2, hole);
    }
  }
}
function countPick(line, stage2, hole) {
  const t = line.queue.now;
  const { counts, season } = line.books;
  counts[PICKED]++;
  season.weekPicks[Math.floor(t / 7)]++;
  if (Number.isNaN(season.firstPick)) season.firstPick = t;
  note(line, "pick", stage2, hole);
}
function moveOn(line) {
  let to = line.last;
  for (let stage2 = to.before; stage2 !== null; stage2 = to.before) {
    while (stage2.ready > 0 && to.free > 0) {
      const crop2 = line.holes.longestReady(stage2);
      const hole = takeReady(line, crop2);
      crop2.standing--;
      vacate(line, stage2, hole);
      enter(line, to, crop2.c, line.holes.plantOf[hole]);
    }
    to = stage2;
  }
}
function sowDue(line) {
  const { calendar, books } = line;
  for (let c = 0; c < calendar.due.length; c++) {
    const due = calendar.due[c];
    calendar.due[c] = 0;
    books.counts[UNSOWN] += due - sow(line, c, due) + calendar.dropped[c];
    calendar.dropped[c] = 0;
  }
  calendar.sowingDue = false;
}
function sowRefills(line) {
  const { calendar, stages, queue } = line;
  for (const [c, refill2] of line.refills.entries()) {
    if (refill2 === null) continue;
    const standing = (s) => stages[s].crops[c].standing;
    sow(line, c, seedsToRefill(refill2, queue.now, calendar.gapAfter(queue), standing));
  }
  calendar.refillDue = false;
}
function sow(line, c, seeds2) {
  const { first: stage2, books } = line;
  const { draws } = stage2.crops[c];
  const sown = Math.min(seeds2, stage2.free);
  if (sown > 0) stage2.reached = true;
  books.counts[SOWN] += sown;
  for (let i = 0; i < sown; i++) {
    const hole = occupy(line, stage2, c, line.plants++);
    note(line, "sow", stage2, hole);
    grow(line, stage2, hole, draws);
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
function handleEvent(line, id) {
  const { holes, stages, calendar, queue, books } = line;
  if (id >= calendar.visitId) {
    calendar.handleEvent(id, queue, books.counts);
    return;
  }
  const stage2 = stages[holes.stageOf[id]];
  const fate = holes.fate[id];
  if (fate === RIPEN) ripen(line, stage2, id);
  else if (fate === CLEANED) {
    holes.after[id] = stage2.cleanedHead;
    stage2.cleanedHead = id;
  } else die(line, stage2, id, fate === DIE);
}
function ripen(line, stage2, hole) {
  const { holes, books, queue } = line;
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
  note(line, "ripen", stage2, hole);
}
function die(line, stage2, hole, died) {
  const { holes, books } = line;
  stage2.growing--;
  stage2.dead++;
  stage2.touched = true;
  stage2.crops[holes.cropOf[hole]].standing--;
  books.counts[died ? LOST : FAILED]++;
  holes.after[hole] = stage2.deadHead;
  stage2.deadHead = hole;
  note(line, died ? "die" : "fail", stage2, hole);
}
function passOn(line, hole) {
  const { queue, holes, books, calendar } = line;
  const stage2 = line.stages[holes.stageOf[hole]];
  if (holes.fate[hole] !== RIPEN || stage2.ready > 0 || queue.hasMoreNow()) return false;
  if (stage2.before !== null && stage2.before.ready > 0) return false;
  const crop2 = stage2.crops[holes.cropOf[hole]];
  const to = crop2.next;
  if (to !== null) {
    if (to.free === 0 || !to.reached) return false;
  } else if (calendar.quota !== Infinity || holes.cutsLeft[hole] !== 1) return false;
  note(line, "ripen", stage2, hole);
  stage2.growing--;
  crop2.standing--;
  if (to !== null) {
    vacate(line, stage2, hole);
    enter(line, to, crop2.c, holes.plantOf[hole]);
    books.shift(to, UNSUPPLIED, GROWING, queue);
  } else {
    countPick(line, stage2, hole);
    books.counts[PICKED_OUT]++;
    vacate(line, stage2, hole);
  }
  books.shift(stage2, GROWING, stage2.cleanDays > 0 ? CLEANING : UNSUPPLIED, queue);
  return true;
}

// sim/models/initial-state.ts
var NEXT = ["ready", "ripen", "die", "fail"];

// sim/models/line/initial-state.ts
function setInitialState(line, initial) {
  const { day, visitsFrom, plants, cleaning, reached } = initial;
  const { queue, holes, stages } = line;
  if (line.always) throw new RangeError("a season can be taken up only if its visits are on days");
  if (!(day >= 0 && visitsFrom > day)) {
    throw new RangeError(`the next visit must come after day ${day}, from day 0 on: ${visitsFrom}`);
  }
  queue.now = day;
  const ready = [];
  for (let i = 0; i < plants.next.length; i++) {
    const hole = stand(line, plants, i);
    if (plants.next[i] === READY) ready.push(hole);
  }
  ready.sort((a, b) => holes.readyAt[a] - holes.readyAt[b]);
  for (const hole of ready) holes.queueReady(stages[holes.stageOf[hole]].crops[holes.cropOf[hole]], hole);
  for (const { stage: stage2, holes: count, until } of cleaning) {
    for (let i = 0; i < count; i++) clean(line, stages[stage2], until);
  }
  for (const stage2 of stages) stage2.reached = reached[stage2.place];
  line.calendar.passOver(day, visitsFrom);
}
var READY = NEXT.indexOf("ready");
var FATES = [RIPEN, RIPEN, DIE, FAIL];
function stand(line, plants, i) {
  const { holes, queue } = line;
  const stage2 = line.stages[plants.stage[i]];
  const next2 = plants.next[i];
  const at = plants.at[i];
  demandFree(line, stage2);
  const plant = line.plants++;
  const hole = occupy(line, stage2, plants.crop[i], plant);
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
function clean(line, stage2, until) {
  const { holes, queue } = line;
  demandFree(line, stage2);
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
    for (const days2 of [this.#visits, this.#wants, ...this.#sowings]) days2.next = 0;
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
    for (const days2 of [this.#wants, ...this.#sowings]) days2.passOver(day + TICK);
  }
  /** Let the first visit, wanted day and sowings come. */
  begin(queue) {
    queue.schedule(this.visitId, this.#visits.day);
    queue.schedule(this.wantId, this.#wants.day);
    for (const [c, days2] of this.#sowings.entries()) queue.schedule(this.sowId + c, days2.day);
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
  constructor(days2) {
    this.#days = Float64Array.from(days2, toGrid);
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
    this.regrowDraws = plan.crops.map(({ regrow: regrow2 }, c) => regrow2 && drawsOf(c, stages.length));
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
  let seeds2 = 0;
  for (const crop2 of plan.crops) seeds2 += crop2.sowing.kind === "due" ? seedsDueOf(crop2) : Infinity;
  let events = 0;
  for (const [s, stage2] of plan.stages.entries()) {
    const shortest = Math.min(...plan.crops.map((crop2) => crop2.stages[s].time.days));
    events += Math.min(seeds2, holesOf(stage2) * seasonDays(plan) / shortest);
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
    const line = this.#state;
    const { always, queue, stages, books, calendar } = line;
    const free = () => Int32Array.from(stages, (stage2) => stage2.free);
    line.reset(seed, season);
    line.observer = observer;
    if (initial !== null) setInitialState(line, initial);
    books.book(stages, queue);
    calendar.begin(queue);
    for (let id = queue.next(); id >= 0; id = queue.next()) {
      if (always && id < calendar.visitId && passOn(line, id)) continue;
      calendar.visiting = always;
      handleEvent(line, id);
      while (queue.hasMoreNow()) handleEvent(line, queue.next());
      if (calendar.visiting) {
        visit(line);
        observer?.onVisitEnd?.(queue.now, free());
      }
      books.book(stages, queue);
    }
    for (const { growing: growing2, ready } of stages) books.counts[STANDING] += growing2 + ready;
    line.observer = null;
    return books.season;
  }
};

// sim/models/limits.ts
var WEEKS = { least: 1, most: 520 };
var LONGEST_SEASON = 7 * WEEKS.most;
var EVERY = { least: 0.01, most: 3650 };
var SEEDS = { least: 1, most: 1e6 };
var CHANNELS = { least: 1, most: 1e5 };
var HEADS = { least: 1, most: 1e9 };
var SEED = { least: 0, most: Number.MAX_SAFE_INTEGER };
function within(name2, value, { least, most }) {
  if (value >= least && value <= most) return value;
  throw new RangeError(`${name2} must be a number from ${least} to ${most}: ${value}`);
}

// sim/models/cadence.ts
function daysEvery(every2, season) {
  within("every", every2, EVERY);
  const days2 = [];
  for (let i = 0; i * every2 < season; i++) days2.push(i * every2);
  return days2;
}
function daysOn(weekdays2, start, season) {
  const wanted = new Set(weekdays2.map((weekday2) => WEEKDAYS.indexOf(weekday2)));
  const first2 = weekdayOfDay(start, 0);
  const days2 = [];
  for (let day = 0; day < season; day++) if (wanted.has((first2 + day) % 7)) days2.push(day);
  return days2;
}

// sim/scenario/faults.ts
function faultAt({ line, column: column2 }, { path, found, expected, nearest: nearest2 = null, advice }) {
  const fault = { line, column: column2, path: pathText(path), found, expected, nearest: nearest2 };
  return advice === void 0 ? fault : { ...fault, advice };
}
var PLAIN_KEY = /^[\p{L}\p{N}_-]+$/u;
function pathText(path) {
  let text = "";
  for (const step of path) {
    if (typeof step === "number") text += `[${step}]`;
    else if (!PLAIN_KEY.test(step)) text += `[${wordText(step)}]`;
    else text += text === "" ? wordText(step) : `.${wordText(step)}`;
  }
  return text;
}
function wordText(word) {
  return PLAIN_KEY.test(word) ? shortened(word) : JSON.stringify(shortened(word));
}
function byPosition(a, b) {
  return a.line - b.line || a.column - b.column || (a.path < b.path ? -1 : a.path > b.path ? 1 : 0);
}
function foundText(value) {
  if (value === void 0) return "nothing";
  if (value === null) return "an empty value";
  if (typeof value === "string") return JSON.stringify(shortened(value));
  if (Array.isArray(value)) return value.length === 0 ? "an empty list" : `a list of ${value.length}`;
  if (typeof value === "object")
    return Object.keys(value).length === 0 ? "empty braces (a map)" : "keys and values (a map)";
  return String(value);
}
function shortened(text) {
  return text.length > 60 ? `${text.slice(0, 60)}\u2026` : text;
}

// sim/scenario/growing-schema.ts
import * as z4 from "zod";

// sim/models/nearest.ts
import { distance } from "fastest-levenshtein";
var SHORTEST_PIECE = 3;
function nearest(word, candidates) {
  const given = word.trim().toLowerCase();
  if (given.length === 0 || given.length > 100) return null;
  let best = null;
  let bestDistance = Number.POSITIVE_INFINITY;
  for (const candidate of candidates) {
    const valid = candidate.toLowerCase();
    const off = sameLetters(given, valid) ? Math.min(1, distance(given, valid)) : distance(given, valid);
    const allowed = Math.max(1, Math.floor(Math.max(given.length, valid.length) * 0.4));
    if (off <= allowed && off < Math.min(bestDistance, valid.length)) {
      best = candidate;
      bestDistance = off;
    }
  }
  return best ?? candidates.find((candidate) => oneInsideOther(given, candidate.toLowerCase())) ?? null;
}
function sameLetters(a, b) {
  return a.length === b.length && [...a].sort().join("") === [...b].sort().join("");
}
function oneInsideOther(a, b) {
  if (Math.min(a.length, b.length) < SHORTEST_PIECE) return false;
  return a.includes(b) || b.includes(a);
}

// sim/scenario/expectations.ts
import * as z from "zod";
var registry2 = z.registry();
function field(schema, meaning, expectation) {
  const described = schema.describe(meaning);
  registry2.add(described, expectation);
  return described;
}
function expectationOf(schema) {
  return registry2.get(schema);
}
function numberAdvice(value) {
  if (typeof value !== "string") return void 0;
  const text = value.trim();
  if (/^-?\d+(\.\d+)?(e-?\d+)?$/i.test(text)) return `Take the quotes away: ${text}.`;
  if (/^-?\d+,\d+$/.test(text)) return `Write a point for the comma: ${text.replace(",", ".")}.`;
  const percent = /^(\d+(?:\.\d+)?)\s*%$/.exec(text);
  if (percent !== null) return `Write a share of 1: ${Number(percent[1]) / 100}.`;
  const withUnit = /^(-?\d+(?:\.\d+)?)\s*\p{L}+[\p{L}\d]*$/u.exec(text);
  if (withUnit !== null) return `Write the number without its unit: ${withUnit[1]}.`;
  return void 0;
}

// sim/scenario/fields.ts
import * as z3 from "zod";

// sim/scenario/schema-walk.ts
import * as z2 from "zod";

// sim/scenario/values.ts
function isMap(value) {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}
function listOf(value) {
  return Array.isArray(value) ? value : [];
}
function valueAt(data, path) {
  let value = data;
  for (const step of path) {
    if (Array.isArray(value)) value = value[Number(step)];
    else if (isMap(value) && Object.hasOwn(value, step)) value = value[step];
    else return void 0;
  }
  return value;
}

// sim/scenario/schema-walk.ts
function bare(schema) {
  let inner = schema;
  while (inner instanceof z2.ZodOptional || inner instanceof z2.ZodDefault) inner = inner.unwrap();
  return inner;
}
function schemaAt(root, path) {
  let schema = bare(root);
  for (const step of path) {
    schema = stepInto(schema, step);
    if (schema === void 0) return void 0;
  }
  return schema;
}
function branchesOf(schema) {
  return schema instanceof z2.ZodUnion ? schema.options.map((branch) => bare(branch)) : [];
}
function stepInto(schema, step) {
  if (schema instanceof z2.ZodUnion) {
    const ways = branchesOf(schema).map((branch) => stepInto(branch, step));
    return ways.find((way) => way !== void 0);
  }
  if (typeof step === "number") {
    return schema instanceof z2.ZodArray ? bare(schema.element) : void 0;
  }
  if (schema instanceof z2.ZodRecord) return bare(schema.valueType);
  if (!(schema instanceof z2.ZodObject && Object.hasOwn(schema.shape, step))) return void 0;
  return bare(schema.shape[step]);
}
function keysOf(schema) {
  if (schema instanceof z2.ZodObject) return Object.keys(schema.shape);
  return schema === void 0 ? [] : [...new Set(branchesOf(schema).flatMap(keysOf))];
}
function ownKeys(union3) {
  const perBranch = branchesOf(union3).map(keysOf);
  return keysOf(union3).filter((key) => perBranch.filter((keys) => keys.includes(key)).length === 1);
}
function branchesFor(union3, value) {
  const own = ownKeys(union3);
  return branchesOf(union3).filter((branch) => {
    if (branch instanceof z2.ZodArray) return Array.isArray(value);
    if (!(branch instanceof z2.ZodObject)) return typeof value === "string";
    return isMap(value) && keysOf(branch).some((key) => own.includes(key) && Object.hasOwn(value, key));
  });
}

// sim/scenario/fields.ts
var WEEKDAY_NAMES = ["monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"];
function nearestWeekday(word) {
  return nearest(word, [...WEEKDAYS, ...WEEKDAY_NAMES])?.slice(0, 3) ?? null;
}
function whole({ least, most }, meaning, unit, more) {
  const expected = `a whole number from ${least} to ${most}${unit === "" ? "" : ` (${unit})`}`;
  return field(z3.int().min(least).max(most), meaning, { expected, ...more });
}
function share(meaning, example) {
  return field(z3.number().min(0).max(1), meaning, {
    expected: "a share from 0 to 1",
    example,
    advise: (value) => typeof value === "number" && value > 1 && value <= 100 ? `For ${value} % write ${Number((value / 100).toPrecision(12))}.` : void 0
  });
}
function above0(most, meaning, unit, example) {
  const expected = `a number above 0 and at most ${most} (${unit})`;
  return field(z3.number().gt(0).max(most), meaning, { expected, example });
}
function atLeast0(meaning, unit, more) {
  return field(z3.number().min(0), meaning, { expected: `a number of at least 0 (${unit})`, ...more });
}
function name(meaning) {
  return field(
    z3.string().regex(/^[\p{L}\p{N}]([^\p{Cc}\p{Cs}\ufffd]{0,58}[^\p{Cc}\p{Cs}\ufffd\s])?$/u),
    meaning,
    {
      expected: "a name of 1 to 60 characters on one line that begins with a letter or a digit",
      advise: (value) => typeof value === "number" || typeof value === "boolean" ? `Put it in quotes: "${value}".` : void 0
    }
  );
}
function date(meaning, key) {
  return field(z3.iso.date().refine(isExpectedDate), meaning, {
    expected: EXPECTED_DATE,
    example: `${key}: 2027-01-04`,
    advise: (value) => (typeof value === "string" ? whyNoDate(value) : null) ?? "Example: 2027-01-04 for the 4th of January 2027."
  });
}
var weekday = field(z3.enum(WEEKDAYS), "A weekday.", {
  expected: "a weekday: mon, tue, wed, thu, fri, sat or sun",
  nearest: nearestWeekday
});
function map(shape2, meaning, example) {
  const needed = Object.keys(shape2).filter((key) => bare(shape2[key]) === shape2[key]);
  const expected = `the keys ${needed.slice(0, -1).join(", ")} and ${needed.at(-1)}`;
  return field(z3.strictObject(shape2), meaning, example === void 0 ? { expected } : { expected, example });
}
function weekdays(meaning, key) {
  return field(z3.array(weekday).min(1), meaning, {
    expected: "a list of 1 to 7 weekdays: mon, tue, wed, thu, fri, sat or sun",
    example: `${key}: [mon, thu]`,
    advise: listAdvice
  });
}
function listAdvice(value) {
  const day = typeof value === "string" ? nearestWeekday(value) : null;
  return day === null ? void 0 : `Write a list, also for a single day: [${day}].`;
}

// sim/scenario/growing-schema.ts
var SHAPES = [
  "lognormal",
  "gamma",
  "weibull",
  "triangular",
  "exponential",
  "fixed",
  "observed"
];
var MOST_DAYS = 3650;
var days = field(z4.number().gt(0).max(MOST_DAYS), "Mean time that a plant needs [days].", {
  expected: `a number above 0 and at most ${MOST_DAYS} (days)`,
  example: "days: 14"
});
var spread = field(
  z4.number().min(0).max(2),
  "Standard deviation of that time over its mean. Needed for lognormal, gamma, weibull and triangular.",
  {
    expected: "a number from 0 to 2 (standard deviation over mean)",
    example: "spread: 0.12",
    advise: (value) => typeof value === "number" && value > 2 ? "Spread is the standard deviation divided by the mean, e.g. 0.12 for 12 %." : void 0
  }
);
var shape = field(
  z4.enum(SHAPES),
  "Shape of the distribution of that time; lognormal if not given (observed where `observed` is given).",
  {
    expected: `one of the shapes ${SHAPES.slice(0, -1).join(", ")} or observed`,
    nearest: (word) => nearest(word, SHAPES)
  }
);
var observed = field(
  z4.array(
    field(z4.number().gt(0).max(MOST_DAYS), "One observed time [days].", {
      expected: `a number above 0 and at most ${MOST_DAYS} (days)`
    })
  ).min(1),
  "Observed times that are resampled, instead of days and spread [days].",
  { expected: "a list of at least one observed time (days)", example: "observed: [13, 14.5, 16]" }
);
var time = {
  days: days.optional(),
  spread: spread.optional(),
  shape: shape.optional(),
  observed: observed.optional(),
  loss: share("Probability that a plant dies in this time.", "loss: 0.03").default(0)
};
var growing = field(
  z4.strictObject({
    ...time,
    keeps: atLeast0(
      "Days that a ready plant stays good where it stands; for ever if not given [days].",
      "days",
      {
        example: "keeps: 7",
        advise: (value) => value === Number.POSITIVE_INFINITY ? "Leave keeps out for plants that stay good for ever." : void 0
      }
    ).optional()
  }),
  "What the crop does in this stage.",
  {
    expected: "one or more of the keys days, spread, loss, keeps, shape or observed",
    example: "nursery: {days: 14, spread: 0.12, loss: 0.03, keeps: 7}"
  }
);
var regrow = field(
  z4.strictObject(time),
  "Growth between two picks of a plant; needed with cuts above 1. A regrown plant keeps as in the last stage.",
  {
    expected: "one or more of the keys days, spread, loss, shape or observed",
    example: "regrow: {days: 12, spread: 0.15, loss: 0.01}"
  }
);

// sim/scenario/issues-to-faults.ts
import * as z5 from "zod";
function issuesToFaults(root, data, issues) {
  const drafts = [];
  const unions = /* @__PURE__ */ new Set();
  for (const issue of issues) {
    const path = issue.path;
    const union3 = unionOn(root, path);
    if (union3 === null) {
      for (const draft of fieldFaults(root, data, path, issue)) drafts.push(draft);
      continue;
    }
    const place = JSON.stringify(union3);
    if (unions.has(place)) continue;
    unions.add(place);
    for (const draft of unionFaults(root, data, union3)) drafts.push(draft);
  }
  return drafts;
}
function missing(root, path) {
  const { expected, example } = expectationAt(root, path);
  return { path, at: "parent", found: "nothing", expected, advice: exampleText(example) };
}
function unknownKey(key, map2, valid) {
  const expected = valid.length === 1 ? `only the key ${valid[0]}` : `one of the keys ${valid.join(", ")}`;
  return {
    path: [...map2, key],
    at: "key",
    found: `the key ${wordText(key)}`,
    expected,
    nearest: nearest(key, valid)
  };
}
function wrongValue(root, path, value) {
  const schema = schemaAt(root, path);
  const expectation = expectationAt(root, path);
  const advice = expectation.advise?.(value) ?? (schema instanceof z5.ZodNumber ? numberAdvice(value) : void 0) ?? exampleText(expectation.example);
  const near = typeof value === "string" ? expectation.nearest?.(value) ?? null : null;
  const { expected } = expectation;
  return { path, at: "value", found: foundText(value), expected, nearest: near, advice };
}
function fieldFaults(root, data, path, issue) {
  const value = valueAt(data, path);
  if (issue.code === "unrecognized_keys") {
    const valid = keysOf(branchMeant(schemaAt(root, path), value));
    return issue.keys.map((key) => unknownKey(key, path, valid));
  }
  return [value === void 0 ? missing(root, path) : wrongValue(root, path, value)];
}
function unionOn(root, path) {
  for (let length = 1; length <= path.length; length++) {
    const start = path.slice(0, length);
    if (schemaAt(root, start) instanceof z5.ZodUnion) return start;
  }
  return null;
}
function unionFaults(root, data, path) {
  const union3 = schemaAt(root, path);
  const value = valueAt(data, path);
  if (value === void 0) return [missing(root, path)];
  const alternatives = ownKeys(union3);
  const meant = branchesFor(union3, value);
  const drafts = [];
  for (const branch of meant) {
    for (const issue of branch.safeParse(value).error?.issues ?? []) {
      if (meant.length > 1 && issue.code === "unrecognized_keys") continue;
      const at = [...path, ...issue.path];
      for (const draft of fieldFaults(root, data, at, issue)) drafts.push(draft);
    }
  }
  if (meant.length === 1) return drafts;
  if (!isMap(value) || alternatives.length === 0) return [wrongValue(root, path, value)];
  const valid = keysOf(union3);
  const unknown = Object.keys(value).filter((key) => !valid.includes(key));
  for (const key of unknown) drafts.push(unknownKey(key, path, valid));
  if (meant.length === 0) drafts.push(...sharedKeyFaults(root, path, value, valid));
  if (meant.length === 0 && unknown.some((key) => alternatives.includes(nearest(key, valid) ?? "")))
    return drafts;
  const there = alternatives.filter((key) => Object.hasOwn(value, key));
  const found = there.length === 0 ? `none of ${alternatives.join(", ")}` : `${there.join(" and ")} at once`;
  return [...drafts, { ...wrongValue(root, path, value), found }];
}
function sharedKeyFaults(root, path, value, valid) {
  return Object.keys(value).flatMap((key) => {
    const at = [...path, key];
    const schema = valid.includes(key) ? schemaAt(root, at) : void 0;
    return schema === void 0 || schema.safeParse(value[key]).success ? [] : [wrongValue(root, at, value[key])];
  });
}
function branchMeant(schema, value) {
  return schema instanceof z5.ZodUnion ? branchesFor(schema, value)[0] ?? schema : schema;
}
function expectationAt(root, path) {
  const schema = schemaAt(root, path);
  return (schema && expectationOf(schema)) ?? { expected: "a key of the scenario" };
}
function exampleText(example) {
  return example === void 0 ? void 0 : `Example: ${example}`;
}

// sim/scenario/schema.ts
import * as z7 from "zod";

// sim/scenario/sow-schema.ts
import * as z6 from "zod";
var seeds = whole(SEEDS, "Seeds per sowing.", "seeds", { example: "seeds: 10" });
var every = field(
  z6.number().min(EVERY.least).max(EVERY.most),
  "Days from one sowing to the next, the first on day 0; fractions are allowed [days].",
  { expected: `a number from ${EVERY.least} to ${EVERY.most} (days)`, example: "every: 3" }
);
var dates = field(z6.array(date("A date of sowing.", "dates")).min(1), "Dates on which sowings are due.", {
  expected: "a list of at least one date as YYYY-MM-DD",
  example: "dates: [2027-01-04, 2027-01-11]"
});
var refill = field(z6.literal(true), "Sow at each visit what the line will miss.", {
  expected: "true (or one of every, on, dates with seeds instead of refill)",
  example: "sow: {refill: true}"
});
var RULES = ["made_up", "dropped"];
var missed = field(
  z6.enum(RULES),
  "What a visit sows where several sowings fell due since the last one: all of them, or only the latest; made_up if not given.",
  {
    expected: "made_up (all that fell due is sown) or dropped (only the latest sowing)",
    example: "missed: dropped",
    nearest: (word) => nearest(word, [...RULES])
  }
).optional();
var sow2 = field(
  z6.union([
    z6.strictObject({ every, seeds, missed }),
    z6.strictObject({ on: weekdays("Weekdays on which sowings are due.", "on"), seeds, missed }),
    z6.strictObject({ dates, seeds, missed }),
    z6.strictObject({ refill })
  ]),
  "When seeds are sown, and how many.",
  {
    expected: "exactly one of the keys every, on, dates (each with seeds) or refill: true",
    example: "sow: {every: 3, seeds: 10}"
  }
);

// sim/scenario/schema.ts
var title = field(z7.string().regex(/^[^\p{Cc}\p{Cs}\ufffd]{1,200}$/u), "Title of the scenario.", {
  expected: "a text of 1 to 200 characters on one line, without control characters",
  advise: (value) => {
    if (typeof value === "number" || typeof value === "boolean") return `Put it in quotes: "${value}".`;
    return typeof value === "string" && /\p{Cc}/u.test(value) ? "Leave out line breaks, tabs and escapes." : void 0;
  }
});
var VISIT_WORDS = ["daily", "always"];
var visits = field(
  z7.union([z7.enum(VISIT_WORDS), weekdays("Weekdays with a visit.", "visits")]),
  "When somebody tends the line: daily, on weekdays, or always (at the instant of every change).",
  {
    expected: "daily, always or a list of weekdays (mon, tue, wed, thu, fri, sat, sun)",
    example: "visits: [mon, thu, sat]",
    nearest: (word) => nearest(word, VISIT_WORDS),
    advise: (value) => typeof value === "string" && nearest(value, VISIT_WORDS) === null ? listAdvice(value) : void 0
  }
);
var span = map(
  {
    from: date("First date without a visit.", "from"),
    to: date("Last date without a visit.", "to")
  },
  "A time in which nobody comes.",
  "{from: 2027-02-08, to: 2027-02-14}"
);
var stage = map(
  {
    name: name("Name of the stage."),
    channels: whole(CHANNELS, "Channels (or trays) of the stage.", "channels", { example: "channels: 8" }),
    holes: whole({ least: 1, most: 1e6 }, "Holes per channel.", "holes per channel", {
      example: "holes: 24"
    }),
    hole_area_cm2: above0(1e7, "Area of one hole [cm2].", "cm2", "hole_area_cm2: 400").optional(),
    clean_days: field(
      z7.number().min(0).max(MOST_DAYS),
      "Days that a hole is out of use after a plant has left it [days].",
      {
        expected: `a number from 0 to ${MOST_DAYS} (days)`,
        example: "clean_days: 1"
      }
    ).default(0)
  },
  "A stage of the line.",
  "{name: nursery, channels: 2, holes: 24}"
);
var crop = map(
  {
    name: name("Name of the crop."),
    germination: share("Probability that a seed sprouts.", "germination: 0.92").default(1),
    sow: sow2,
    cuts: whole({ least: 1, most: 50 }, "Picks per plant.", "picks per plant", {
      example: "cuts: 3"
    }).default(1),
    regrow: regrow.optional(),
    head_g: above0(1e6, "Fresh mass of one head or cut [g].", "g", "head_g: 150").optional(),
    stages: field(
      z7.record(z7.string(), growing),
      "What the crop does in each stage, by the name of the stage.",
      {
        expected: "an entry for each stage of the line"
      }
    )
  },
  "A crop."
);
var want = map(
  {
    heads: whole(HEADS, "Heads wanted on each of these weekdays.", "heads", {
      example: "heads: 6"
    }),
    on: weekdays("Weekdays on which heads are wanted.", "on")
  },
  "Heads that are wanted; all that is ready is picked if not given.",
  "want: {heads: 6, on: [tue, fri]}"
);
var log = field(
  z7.string().regex(/^(?!-$)[^\p{Cc}\p{Cs}\ufffd]{1,1000}$/u),
  "File of the season log, beside the scenario.",
  {
    expected: "the path of a file, as seen from the folder of the scenario",
    example: "log: season.csv"
  }
);
var scenarioSchema = map(
  {
    title: title.default("Untitled line"),
    start: date("Date of day 0.", "start"),
    weeks: whole(WEEKS, "Length of a season [weeks].", "weeks", { example: "weeks: 26" }),
    seed: whole(SEED, "Number that chooses the luck of the season.", "").default(1),
    visits: visits.default("daily"),
    away: field(z7.array(span), "Spans of dates without a visit, first and last date included.", {
      expected: "a list of absences, each with the keys from and to",
      example: "away: [{from: 2027-02-08, to: 2027-02-14}]"
    }).default([]),
    stages: field(
      z7.array(stage).min(1).max(20),
      "The stages, in the order in which plants pass through them.",
      {
        expected: "a list of 1 to 20 stages",
        example: "stages: [{name: finishing, channels: 8, holes: 9}]"
      }
    ),
    crops: field(z7.array(crop).min(1).max(50), "The crops, in the order in which they are sown.", {
      expected: "a list of 1 to 50 crops"
    }),
    want: want.optional(),
    log: log.optional()
  },
  "A staged growing line, its crops and its season."
);

// sim/scenario/growth-checks.ts
function shapeOf(growing2) {
  return growing2.shape ?? (growing2.observed === void 0 ? "lognormal" : "observed");
}
function growthFaults(growing2, path) {
  const shape2 = shapeOf(growing2);
  if (!SHAPES.includes(shape2)) return [];
  const has = (key) => Object.hasOwn(growing2, key);
  if (shape2 === "observed") {
    const tooMany = ["days", "spread"].filter(has).map((key) => besideObserved(key, path));
    return has("observed") ? tooMany : [...tooMany, missing(scenarioSchema, [...path, "observed"])];
  }
  if (has("observed")) return [observedBesideShape(String(shape2), path)];
  const drafts = spreadFaults(String(shape2), growing2["spread"], path);
  return has("days") ? drafts : [missing(scenarioSchema, [...path, "days"]), ...drafts];
}
function observedBesideShape(shape2, path) {
  return {
    path: [...path, "observed"],
    at: "key",
    found: `the key observed with the shape ${shape2}`,
    expected: "observed only with shape: observed",
    advice: "Use shape: observed, or leave observed out."
  };
}
function spreadFaults(shape2, spread2, path) {
  const at = [...path, "spread"];
  if (shape2 === "exponential" || shape2 === "fixed") {
    const only2 = shape2 === "exponential" ? 1 : 0;
    if (!inRange(spread2) || spread2 === only2) return [];
    const expected = `no spread (or ${only2}) with the shape ${shape2}`;
    return [{ path: at, at: "value", found: foundText(spread2), expected, advice: "Leave spread out." }];
  }
  if (spread2 === void 0) return [missing(scenarioSchema, at)];
  if (shape2 === "triangular" && inRange(spread2) && !(spread2 < TRIANGULAR_CV_LIMIT)) {
    return [
      {
        path: at,
        at: "value",
        found: foundText(spread2),
        expected: "a number from 0 to below 0.408 with the shape triangular (standard deviation over mean)",
        advice: "A wider triangle around its mean would begin below 0 days. Use shape: gamma for so wide a spread."
      }
    ];
  }
  return [];
}
function inRange(spread2) {
  return typeof spread2 === "number" && spread2 >= 0 && spread2 <= 2;
}
function besideObserved(key, path) {
  return {
    path: [...path, key],
    at: "key",
    found: `the key ${key} with observed times`,
    expected: `no ${key} with the shape observed (the observed times say it)`,
    advice: `Leave ${key} out.`
  };
}

// sim/scenario/plan.ts
function toPlan(scenario) {
  const { title: title2, start, weeks, seed, want: want2 } = scenario;
  return {
    title: title2,
    start,
    weeks,
    seed,
    visits: toVisits(scenario),
    stages: scenario.stages.map((stage2) => ({
      name: stage2.name,
      channels: stage2.channels,
      holesPerChannel: stage2.holes,
      holeAreaCm2: stage2.hole_area_cm2 ?? null,
      cleanDays: stage2.clean_days
    })),
    crops: scenario.crops.map((crop2) => toCrop(crop2, scenario)),
    want: want2 === void 0 ? null : { heads: want2.heads, days: daysOn(want2.on, start, weeks * 7) }
  };
}
function toVisits({ visits: visits2, away, start, weeks }) {
  if (visits2 === "always") return { kind: "always" };
  const spans = away.map(({ from, to }) => ({ from: dayFrom(start, from), to: dayFrom(start, to) }));
  const isAway = (day) => spans.some(({ from, to }) => from <= day && day <= to);
  const days2 = daysOn(visits2 === "daily" ? WEEKDAYS : visits2, start, weeks * 7);
  const gone = daysOn(WEEKDAYS, start, weeks * 7).filter(isAway);
  return {
    kind: "days",
    days: days2.filter((day) => !isAway(day)),
    ...gone.length === 0 ? {} : { away: { days: gone, visits: days2.filter(isAway) } }
  };
}
function toCrop(crop2, { stages, start, weeks }) {
  const growing2 = stages.map(({ name: name2 }) => toGrowing(crop2.stages[name2]));
  const keeps = growing2.at(-1).keeps;
  return {
    name: crop2.name,
    germination: crop2.germination,
    sowing: toSowing(crop2.sow, start, weeks * 7),
    cuts: crop2.cuts,
    regrow: crop2.regrow === void 0 ? null : { time: toTime(crop2.regrow), loss: crop2.regrow.loss, keeps },
    headG: crop2.head_g ?? null,
    stages: growing2
  };
}
function toSowing(sow3, start, season) {
  if ("refill" in sow3) return { kind: "refill" };
  const { seeds: seeds2, missed: missed2 } = sow3;
  return {
    kind: "due",
    days: dueDays(sow3, start, season),
    seeds: seeds2,
    ...missed2 === void 0 ? {} : { missed: missed2 }
  };
}
function dueDays(sow3, start, season) {
  if ("every" in sow3) return daysEvery(sow3.every, season);
  if ("on" in sow3) return daysOn(sow3.on, start, season);
  return daysIn(sow3.dates, start, season).sort((a, b) => a - b);
}
function daysIn(dates2, start, season) {
  return dates2.map((date2) => dayFrom(start, date2)).filter((day) => day >= 0 && day < season);
}
function toGrowing(growing2) {
  return { time: toTime(growing2), loss: growing2.loss, keeps: growing2.keeps ?? Number.POSITIVE_INFINITY };
}
function toTime(growing2) {
  const shape2 = shapeOf(growing2);
  if (shape2 === "observed") return observedTime(growing2.observed);
  const spread2 = shape2 === "exponential" ? 1 : shape2 === "fixed" ? 0 : growing2.spread;
  return { shape: shape2, days: atLeastTick(growing2.days), spread: spread2, times: [] };
}
function observedTime(seen) {
  const times = seen.map(atLeastTick);
  const days2 = times.reduce((sum, time2) => sum + time2, 0) / times.length;
  const variance = times.reduce((sum, time2) => sum + (time2 - days2) ** 2, 0) / times.length;
  return { shape: "observed", days: days2, spread: Math.sqrt(variance) / days2, times };
}
function atLeastTick(days2) {
  return Math.max(TICK, days2);
}

// sim/season/ahead/forecast.ts
var WITHIN = 0.8;
function forecastOf(values, futures = values.length) {
  const sorted = new Float64Array(futures);
  sorted.set(values);
  sorted.sort();
  const moments = new Moments();
  let sum = 0;
  for (const value of sorted) {
    moments.add(value);
    sum += value;
  }
  const quantile = (p) => quantileOf(p, sorted.length, (rank) => sorted[rank]);
  const [p10, p90] = [quantile(0.1), quantile(0.9)];
  return {
    // Of whole numbers to the last digit.
    mean: sum / sorted.length,
    se: moments.count < 2 ? null : moments.standardError,
    p10,
    p50: quantile(0.5),
    p90,
    ...wholeRange(sorted, p10, p90)
  };
}
function wholeRange(sorted, p10, p90) {
  const [least, most] = [Math.floor(p10), Math.ceil(p90)];
  const middle = Math.round(p10);
  const ranges = middle === Math.round(p90) ? [{ low: middle, high: middle }] : [least, least + 1].flatMap((low) => [most, most - 1].map((high) => ({ low, high })));
  return ranges.filter(({ low, high }) => low <= high).map((range) => ({ ...range, share: shareWithin(sorted, range) })).reduce((best, one2) => Math.abs(one2.share - WITHIN) < Math.abs(best.share - WITHIN) ? one2 : best);
}
function shareWithin(values, { low, high }) {
  let count = 0;
  const of = low === high ? Math.round : (value) => value;
  for (const value of values) if (of(value) >= low && of(value) <= high) count++;
  return count / values.length;
}

// sim/engine/lists.ts
function groupedBy(items, keyOf) {
  const groups = /* @__PURE__ */ new Map();
  for (const item of items) {
    const group = groups.get(keyOf(item));
    if (group === void 0) groups.set(keyOf(item), [item]);
    else group.push(item);
  }
  return groups;
}
function summedUp(jumps) {
  for (let i = 1; i < jumps.length; i++) jumps[i] += jumps[i - 1];
  return jumps;
}
function sumOf(values) {
  return values.reduce((sum, value) => sum + value, 0);
}

// sim/models/growing-time.ts
var HALF_TICK = TICK / 2;
var LEAST_DRAW = 2 ** -33;
var MOST_DRAW = 1 - LEAST_DRAW;
var NEAR = 0.01;
var GrowingTime = class {
  #law;
  #one = new Float64Array(1);
  constructor(time2) {
    this.#law = lawOf(time2);
  }
  /** P(T <= age) @param age [d] */
  readyBy(age) {
    return this.#law.share(age + HALF_TICK);
  }
  /** P(T > age) @param age [d] */
  beyond(age) {
    return 1 - this.readyBy(age);
  }
  /** How likely times near `age` are, beside others: the law's mass within a hundredth of a day of it. */
  near(age) {
    return this.#law.share(age + NEAR) - this.#law.share(age - NEAR);
  }
  /** P(least <= T <= most) @param least on the grid [d] @param most likewise; may be Infinity */
  within(least, most) {
    return this.readyBy(most) - this.readyBy(least - TICK);
  }
  /**
   * The time below which a share u of those from `least` to `most` lies. Where the law has next to nothing, the limit that is
   * nearest to it.
   * @param least on the grid [d] @param most likewise; may be Infinity
   */
  timeWithin(least, most, u) {
    const from = this.readyBy(least - TICK);
    const to = this.readyBy(most);
    const time2 = toGrid(this.quantile(from + u * (to - from)));
    return Math.min(most, Math.max(least, time2));
  }
  /** The time below which a share u of all lies, as a draw gives it but for the grid [d] */
  quantile(u) {
    this.#one[0] = Math.min(MOST_DRAW, Math.max(LEAST_DRAW, u));
    this.#law.fill(this.#one, 1);
    return this.#one[0];
  }
};

// sim/season/history/growth-law.ts
var POINTS = 64;
var GrowthLaw = class extends GrowingTime {
  /** Probability that a seed sprouts; 1 behind the first stage. */
  germination;
  loss;
  /** Days that a ready plant stays good [d]. */
  keeps;
  #dying = /* @__PURE__ */ new Map();
  constructor({ time: time2, loss, keeps }, germination) {
    super(time2);
    this.germination = germination;
    this.loss = loss;
    this.keeps = toGrid(keeps);
  }
  /** P(U T > age): the mean of 1 - age/T over the times beyond. */
  dyingBeyond(age) {
    if (age <= 0) return 1;
    let chance = this.#dying.get(age);
    if (chance === void 0) {
      const from = this.readyBy(age);
      let sum = 0;
      for (let i = 0; i < POINTS; i++) {
        const time2 = this.quantile(from + (i + 0.5) / POINTS * (1 - from));
        sum += Math.max(0, 1 - age / time2);
      }
      chance = (1 - from) * sum / POINTS;
      this.#dying.set(age, chance);
    }
    return chance;
  }
  /** The age at which a lost plant dies that has not died by `age`. */
  deathBeyond(age, uniform) {
    const from = this.readyBy(age);
    for (let i = 0; i < MOST_TRIES; i++) {
      const time2 = this.quantile(from + uniform() * (1 - from));
      const moment = uniform() * time2;
      if (moment > age) return Math.max(age + TICK, toGrid(moment));
    }
    return age + TICK;
  }
  /** The age at which a plant died or failed that lived at one age and did not at another [d]. */
  deathBetween(least, most, uniform) {
    const fails = (1 - this.germination) * this.within(least + TICK, most);
    const dies = this.germination * this.loss * (this.dyingBeyond(least) - this.dyingBeyond(most));
    const age = uniform() * (fails + dies) < fails ? this.timeWithin(least + TICK, most, uniform()) : (
      // Between two visits, death is about as likely at any time.
      toGrid(least + uniform() * (most - least))
    );
    return Math.max(TICK, age);
  }
};
var MOST_TRIES = 1e4;
function growthLawsOf(crop2, stage2) {
  const germination = stage2 === first(crop2) ? crop2.germination : 1;
  const first2 = new GrowthLaw(crop2.stages[stage2], germination);
  if (!isLast(crop2, stage2) || crop2.regrow === null) return [first2];
  const again = new GrowthLaw(crop2.regrow, 1);
  return [first2, ...Array.from({ length: crop2.cuts - 1 }, () => again)];
}

// sim/season/history/resting-channels.ts
function restingChannels({ days: days2, events }, s, holes, standing) {
  const named = new Int32Array(days2);
  const rests = [];
  const byChannel = /* @__PURE__ */ new Map();
  for (const { action, stage: stage2, day, channel, count } of events) {
    if (stage2 !== s || !(action === "clean" || action === "sow" || action === "move")) continue;
    const before4 = channel === null ? void 0 : byChannel.get(channel);
    if (before4 !== void 0) before4.to = day;
    if (channel !== null) byChannel.delete(channel);
    if (action !== "clean") continue;
    const rest = { channel, holes: count, from: day, to: days2 };
    rests.push(rest);
    named[day] += count;
    if (channel !== null) byChannel.set(channel, rest);
  }
  return { ...backWhenNeeded(rests, holes, standing), named };
}
function backWhenNeeded(rests, holes, standing) {
  const open = [];
  const over = [];
  let next2 = 0;
  const level = standing.map((plants, day) => {
    for (; next2 < rests.length && rests[next2].from <= day; next2++) open.push(rests[next2]);
    for (let i = open.length - 1; i >= 0; i--) if (open[i].to <= day) over.push(...open.splice(i, 1));
    let resting = open.reduce((sum, rest) => sum + rest.holes, 0);
    const room = Math.max(0, holes - plants);
    while (resting > room) {
      const first2 = open[0];
      const back = Math.min(first2.holes, resting - room);
      over.push({ ...first2, holes: back, to: day });
      resting -= back;
      if (back === first2.holes) open.shift();
      else first2.holes -= back;
    }
    return resting;
  });
  const all = [...over, ...open].filter(({ from, to }) => to > from);
  return { level, rests: all.sort((a, b) => a.from - b.from) };
}

// sim/season/history/occupancy.ts
function occupancy(season, cohorts, visits2) {
  return season.plan.stages.map((stage2, s) => {
    const holes = holesOf(stage2);
    const standing = new Int32Array(season.days);
    const left = new Int32Array(season.days);
    for (const { seen, count } of cohorts[s]) standing[seen] += count;
    for (const { stays } of stageCohorts(cohorts, s, season.plan)) {
      for (const { to, count, vacates } of stays) if (vacates) left[to] += count;
    }
    left.forEach((count, day) => {
      standing[day] -= count;
    });
    summedUp(standing);
    const resting = restingChannels(season, s, holes, standing);
    const cleaning = cleaningAfterPlants(stage2, left, resting.named, visits2);
    const empty = new Int32Array(season.days);
    for (let day = 0; day < season.days; day++) {
      const room = Math.max(0, holes - standing[day]);
      cleaning[day] = Math.min(room, cleaning[day] + resting.level[day]);
      empty[day] = room - cleaning[day];
    }
    return {
      holes,
      standing,
      cleaning,
      logged: resting.level,
      empty,
      firstEntry: cohorts[s][0]?.seen ?? Infinity,
      rests: resting.rests
    };
  });
}
function stageCohorts(cohorts, s, plan) {
  const regrown = cohorts[plan.stages.length];
  return isLast(plan, s) && regrown.length > 0 ? [...cohorts[s], ...regrown] : cohorts[s];
}
function cleaningAfterPlants(stage2, left, named, visits2) {
  const days2 = left.length;
  const level = new Int32Array(days2);
  const cleanDays = toGrid(stage2.cleanDays);
  if (cleanDays === 0) return level;
  let next2 = 0;
  for (let day = 0; day < days2; day++) {
    while (next2 < visits2.length && visits2[next2] < day + cleanDays) next2++;
    const holes = left[day] - Math.min(left[day], named[day]);
    level[day] += holes;
    const back = visits2[next2] ?? days2;
    if (back < days2) level[back] -= holes;
  }
  return summedUp(level);
}

// sim/season/history/growths.ts
var FURTHER_BACK = 8;
function growthsOf(cohorts, stage2, plan, visits2, short, holes) {
  const here = stageCohorts(cohorts, stage2, plan);
  const isOf = ({ batch, phase }) => `${batch} ${phase}`;
  const standing = here.filter((cohort) => cohort.stays.some(({ end }) => end === "standing"));
  const groups = new Set(standing.map(isOf));
  const mates = here.filter((cohort) => groups.has(isOf(cohort)));
  const oldest = mates.reduce((least, { from, since }) => Math.min(least, since?.from ?? from), Infinity);
  let firstVisit = 0;
  while (firstVisit < visits2.length - 1 && visits2[firstVisit] <= oldest) firstVisit++;
  for (let i = 0; i < FURTHER_BACK && firstVisit > 0 && short[firstVisit - 1] === 1; i++) firstVisit--;
  const growths = allGrowths(here, visits2, short).filter(
    (growth) => groups.has(isOf(growth)) || growth.queued && growth.visit >= firstVisit
  );
  return { growths: thatFit(growths, holes), firstVisit };
}
function allGrowths(here, visits2, short) {
  const places = new Map(visits2.map((day, i) => [day, i]));
  const last2 = visits2.length - 1;
  const growths = [];
  for (const cohort of here) {
    for (const stay of cohort.stays) {
      const visit3 = stay.end === "standing" ? last2 : places.get(stay.to);
      const end = endOf(stay);
      const queued = end === "standing" ? short[last2] === 1 : end !== "dead" && (short[visit3] === 1 || visit3 > 0 && short[visit3 - 1] === 1);
      const { batch, crop: crop2, phase, from, since } = cohort;
      const growth = { batch, crop: crop2, phase, visit: visit3, end, from, ...since && { since }, queued };
      for (let i = 0; i < stay.count; i++) growths.push(growth);
    }
  }
  return growths;
}
function thatFit(growths, holes) {
  const surplus = growths.reduce((sum, { end }) => sum + (end === "standing" ? 1 : 0), -holes);
  if (surplus <= 0) return growths;
  const gone = new Set(
    [...growths.entries()].filter(([, { end }]) => end === "standing").sort(([, a], [, b]) => b.phase - a.phase || a.from - b.from).slice(0, surplus).map(([place]) => place)
  );
  return growths.filter((_, place) => !gone.has(place));
}
function endOf({ end }) {
  if (end === "picked") return "on";
  return end === "failed" || end === "died" ? "dead" : end;
}

// sim/season/history/plan-days.ts
function dailyVisits(plan) {
  if (plan.visits.kind === "days") return plan.visits.days;
  return Array.from({ length: seasonDays(plan) }, (_, day) => day);
}

// sim/season/history/initial-cutoffs.ts
var HALVINGS = 16;
function initialCutoffs(left, standing, visits2, short, firstVisit) {
  const cutoffs = new Float64Array(visits2.length);
  let cutoff = -Infinity;
  for (let i = firstVisit; i < visits2.length; i++) {
    const day = visits2[i];
    const went = left[i].filter(({ growth }) => growth.end === "on");
    if (short[i] === 0) cutoff = day;
    else if (went.length > 0) {
      const rivals = alike([...left.slice(i).flat(), ...standing], day);
      let low = went.reduce(
        (least, { growth, law }) => Math.max(least, growth.from, day - law.keeps),
        cutoff
      );
      let high = Math.max(low, Math.min(day, latest(left, visits2, i)));
      for (let k = 0; k < HALVINGS && high > low; k++) {
        const middle = (low + high) / 2;
        if (expectedReady(rivals, cutoff, middle) < went.length) low = middle;
        else high = middle;
      }
      cutoff = toGrid(high);
    }
    cutoffs[i] = cutoff;
  }
  return cutoffs;
}
function alike(plants, day) {
  const found = /* @__PURE__ */ new Map();
  for (const { growth, law } of plants) {
    const { from } = growth;
    if (from >= day) continue;
    const days2 = found.get(law) ?? /* @__PURE__ */ new Map();
    found.set(law, days2);
    const one2 = days2.get(from) ?? { law, from, count: 0 };
    days2.set(from, one2);
    one2.count += growth.end === "standing" ? law.germination * (1 - law.loss) : 1;
  }
  return [...found.values()].flatMap((days2) => [...days2.values()]);
}
function expectedReady(plants, since, by) {
  let sum = 0;
  for (const { law, from, count } of plants) {
    const before4 = since === -Infinity ? 0 : law.readyBy(since - from);
    if (before4 < 1) sum += count * (law.readyBy(by - from) - before4) / (1 - before4);
  }
  return sum;
}
function latest(left, visits2, i) {
  let least = Infinity;
  for (let k = i + 1; k < left.length; k++) {
    for (const { growth, law } of left[k]) {
      if (growth.end === "discarded") least = Math.min(least, visits2[k] - law.keeps);
    }
  }
  return least;
}

// sim/season/history/overdue.ts
var HARDLY = 0.01;
function overdueLots(plan, lots, s, readyBy) {
  return lots.flatMap((cohort) => {
    const stay = cohort.stays.at(-1);
    if (stay?.end !== "standing") return [];
    const time2 = new GrowingTime(plan.crops[cohort.crop].stages[s].time);
    const from = cohort.since?.to ?? cohort.from;
    if (time2.beyond(readyBy(cohort, stay) - from) >= HARDLY) return [];
    return [{ cohort, count: stay.count, ready: from + time2.quantile(1 - HARDLY) }];
  });
}
function surplusIn(plan, cohorts, s) {
  return Math.max(0, leastStanding(plan, cohorts, s) - holesOf(plan.stages[s]));
}
function leastStanding(plan, cohorts, s) {
  let least = 0;
  for (const lots of groupedBy(stageCohorts(cohorts, s, plan), ({ batch }) => batch).values()) {
    const crop2 = plan.crops[lots[0].crop];
    let picked = 0;
    for (const { phase, count, stays } of lots) {
      if (phase === 0) least += count;
      for (const stay of stays) {
        if (stay.end === "picked") picked += stay.count;
        else if (stay.end !== "standing") least -= stay.count;
      }
    }
    least -= Math.floor(picked / (isLast(crop2, s) ? crop2.cuts : 1));
  }
  return least;
}

// sim/season/history/stage-past.ts
var StagePast = class {
  #visits;
  #short;
  #firstVisit;
  #uniform;
  /* Of each plant, by its place among the growths; a large line has a million. */
  #alike = [];
  /** Day on which it came in [d], and when it can have. */
  #from;
  #since = [];
  /** When it became, or becomes, ready [d]; of use only if it is tied, and not for a plant that will die or fail. */
  #ready;
  /** Of plants that stand. */
  #fate = [];
  #groups;
  #standing = [];
  #gone = [];
  /** Those of which perhaps only a span of days is known in which they came in, and their like. */
  #undated;
  /** Tied plants that left, by the place of the visit. */
  #left;
  #standingQueued;
  #unlogged;
  /** The earliest that a plant can have become ready that was left behind at a visit [d]. */
  #cutoff;
  /**
   * @param lawOf what is likely of a growth
   * @param visits at least one, ascending [d]
   * @param short visits at which holes were short
   * @param unlogged whether what is lost here is not logged
   * @param uniform numbers between 0 and 1
   */
  constructor({ growths, firstVisit }, lawOf2, visits2, short, unlogged, uniform) {
    this.#visits = visits2;
    this.#short = short;
    this.#firstVisit = firstVisit;
    this.#unlogged = unlogged;
    this.#uniform = uniform;
    this.#left = visits2.map(() => []);
    this.#cutoff = new Float64Array(visits2.length);
    this.#from = Float64Array.from(growths, ({ from }) => from);
    this.#ready = this.#from.slice();
    const groups = /* @__PURE__ */ new Map();
    let group = { members: [], mixed: false };
    let alike2;
    for (const [i, growth] of growths.entries()) {
      if (alike2?.growth !== growth) {
        const key = `${growth.batch} ${growth.phase}`;
        group = groups.get(key) ?? { members: [], mixed: false };
        groups.set(key, group);
        const law = lawOf2(growth);
        const since = growth.since === void 0 ? null : boundedSpan(growth.since, law);
        alike2 = { growth, law, since, known: /* @__PURE__ */ new Map() };
      }
      this.#alike.push(alike2);
      this.#since.push(alike2.since);
      this.#fate.push("ripen");
      if (group.members.length > 0 && this.#from[group.members[0]] !== growth.from) group.mixed = true;
      group.members.push(i);
      if (growth.end === "standing") this.#standing.push(i);
      else {
        this.#gone.push(i);
        if (growth.queued) this.#left[growth.visit].push(i);
      }
    }
    this.#groups = [...groups.values()].filter(({ mixed }) => mixed);
    this.#undated = [...groups.values()].filter(({ members }) => members.some((i) => this.#since[i] !== null)).flatMap(({ members }) => members);
    this.#standingQueued = short[visits2.length - 1] === 1 && this.#standing.length > 0;
    this.#begin();
  }
  /** Whether there is anything that takes rounds to settle. */
  get settles() {
    return this.#groups.length > 0 || this.#undated.length > 0 || this.#standingQueued;
  }
  /** One round: every bit is drawn anew. */
  round() {
    for (const { members } of this.#groups) for (let i = 0; i < members.length; i++) this.#exchange(members);
    for (const i of this.#undated) this.#drawEntry(i);
    this.#drawReady();
    if (this.#standingQueued) this.#drawStanding();
  }
  /**
   * What the plants that stand are about to do, in the order of the growths.
   * @param hear is given the growth, what it is about to do and when [d] (a time up to the last visit: it is ready),
   * whether by the plan's laws hardly one such plant would still stand there and grow, and when it came in [d]
   */
  tell(hear) {
    const last2 = this.#visits.at(-1);
    if (!this.#standingQueued) this.#drawStanding();
    for (const i of this.#standing) {
      const { growth, law } = this.#alike[i];
      const from = this.#from[i];
      const fate = this.#fate[i];
      let at = this.#ready[i];
      const age = last2 - from;
      if (fate === "die")
        at = this.#isOver(law.dyingBeyond(age)) ? last2 + TICK : from + law.deathBeyond(age, this.#uniform);
      if (fate === "fail")
        at = this.#isOver(law.beyond(age)) ? last2 + TICK : from + law.timeWithin(age + TICK, Infinity, this.#uniform());
      hear(growth, fate, at, this.#growsOn(law, from) < HARDLY, from);
    }
  }
  /**
   * What those did that left, in the order of the growths.
   * @param hear is given the growth, whether it became ready (else it died or failed), when [d], and when it came in [d]
   */
  tellLeft(hear) {
    for (const i of this.#gone) {
      const alike2 = this.#alike[i];
      const { growth, law } = alike2;
      const from = this.#from[i];
      const visit3 = this.#visits[growth.visit];
      const most = this.#most(alike2, visit3);
      if (growth.end !== "dead") {
        if (!growth.queued) this.#setReady(i, this.#least(i, growth.visit), most);
        if (growth.end === "on" || this.#ready[i] <= most) {
          hear(growth, true, this.#ready[i], from);
          continue;
        }
      }
      const before4 = Math.max(0, (this.#visits[growth.visit - 1] ?? from) - from);
      hear(growth, false, from + law.deathBetween(before4, visit3 - from, this.#uniform), from);
    }
  }
  /** Whether a plant that is lost was lost by the last visit already. @param later chance that it is lost after it */
  #isOver(later) {
    return this.#unlogged && this.#uniform() >= later;
  }
  /* ---- the beginning ---- */
  #begin() {
    const alike2 = (plants) => plants.map((i) => this.#alike[i]);
    const [left, standing] = [this.#left.map(alike2), alike2(this.#standing)];
    const cutoffs = initialCutoffs(left, standing, this.#visits, this.#short, this.#firstVisit);
    this.#drawLeft((visit3) => cutoffs[visit3]);
    this.#drawStanding();
  }
  /* ---- rounds ---- */
  /** Let two plants of a batch change places: each came in when the other did. */
  #exchange(members) {
    const a = members[Math.floor(this.#uniform() * members.length)];
    const b = members[Math.floor(this.#uniform() * members.length)];
    const [from, since] = [this.#from[a], this.#since[a]];
    const [otherFrom, otherSince] = [this.#from[b], this.#since[b]];
    if (from === otherFrom) return;
    const now = this.#weight(a, from) * this.#weight(b, otherFrom);
    const then = this.#weight(a, otherFrom) * this.#weight(b, from);
    if (!(then > 0) || this.#uniform() * now >= then) return;
    this.#from[a] = otherFrom;
    this.#since[a] = otherSince;
    this.#from[b] = from;
    this.#since[b] = since;
  }
  /** Let a plant have come in on another day of its span. */
  #drawEntry(i) {
    const since = this.#since[i];
    if (since === null) return;
    for (let tries = 0; tries < ENTRIES; tries++) {
      const other = since.from + Math.floor(this.#uniform() * (since.to - since.from + 1));
      const then = this.#weight(i, other);
      if (then > 0 && this.#uniform() * this.#weight(i, this.#from[i]) < then) this.#from[i] = other;
    }
  }
  /** When those became ready that left: before those that stayed. */
  #drawReady() {
    const until = this.#leastAfter();
    this.#drawLeft((visit3) => Math.min(this.#visits[visit3], until[visit3]));
  }
  /** Visit by visit: when those became ready that left then, after those that left before. @param most where holes were short */
  #drawLeft(most) {
    for (let visit3 = this.#firstVisit; visit3 < this.#visits.length; visit3++) {
      const latest2 = this.#short[visit3] === 1 ? most(visit3) : this.#visits[visit3];
      for (const i of this.#left[visit3]) {
        this.#setReady(i, this.#least(i, visit3), this.#most(this.#alike[i], latest2));
      }
      this.#pushCutoff(visit3);
    }
  }
  #drawStanding() {
    const last2 = this.#visits.at(-1);
    for (const i of this.#standing) {
      const { law } = this.#alike[i];
      const from = this.#from[i];
      const least = this.#leastStanding(law, from);
      const lives = (1 - law.loss) * law.germination * this.#growsOn(law, from);
      const dies = law.loss * law.germination * this.#dying(law, last2 - from);
      const fails = (1 - law.germination) * this.#failing(law, last2 - from);
      const u = this.#uniform() * (lives + dies + fails);
      if (u < lives || !(dies + fails > 0)) {
        this.#fate[i] = "ripen";
        this.#setReady(i, least, Infinity);
      } else this.#fate[i] = u < lives + dies ? "die" : "fail";
    }
  }
  #setReady(i, least, most) {
    const { law } = this.#alike[i];
    const from = this.#from[i];
    const top = Math.max(least, most);
    const u = this.#uniform();
    this.#ready[i] = top < Infinity && law.within(least - from, top - from) < NOTHING ? least + toGrid(u * (top - least)) : from + law.timeWithin(least - from, top - from, u);
  }
  /* ---- limits ---- */
  /** The earliest that a plant can have become ready that left at a visit. */
  #least(i, visit3) {
    const { growth, law } = this.#alike[i];
    const kept = growth.end === "discarded" ? this.#visits[visit3 - 1] ?? -Infinity : this.#visits[visit3];
    return Math.max(this.#from[i] + TICK, this.#cutoffBefore(visit3), kept - law.keeps);
  }
  /** The latest: before those that stayed; but who was thrown away had been ready for longer than it keeps. */
  #most({ growth, law }, beforeOthers) {
    if (growth.end !== "discarded") return beforeOthers;
    return this.#visits[growth.visit] - law.keeps - TICK;
  }
  /** The earliest that a plant that stands can have become ready, or becomes it, if it does. */
  #leastStanding(law, from) {
    const last2 = this.#visits.length - 1;
    return Math.max(from + TICK, this.#cutoff[last2], this.#visits[last2] - law.keeps);
  }
  /** Of those that were left behind at the visit before visit i, the first that is looked at or a later one. */
  #cutoffBefore(i) {
    if (i > this.#firstVisit) return this.#cutoff[i - 1];
    const before4 = this.#firstVisit - 1;
    return before4 >= 0 && this.#short[before4] === 0 ? this.#visits[before4] + TICK : -Infinity;
  }
  /** After a visit: where holes were left nothing ready was; else nothing that was ready before one that went. */
  #pushCutoff(visit3) {
    if (this.#short[visit3] === 0) {
      this.#cutoff[visit3] = this.#visits[visit3] + TICK;
      return;
    }
    let cutoff = this.#cutoffBefore(visit3);
    for (const i of this.#left[visit3]) {
      if (this.#alike[i].growth.end === "on") cutoff = Math.max(cutoff, this.#ready[i]);
    }
    this.#cutoff[visit3] = cutoff;
  }
  /** For each visit: when the first of those became ready that left later or stand. */
  #leastAfter() {
    const least = new Float64Array(this.#visits.length);
    let first2 = Infinity;
    if (this.#standingQueued) {
      for (const i of this.#standing) if (this.#fate[i] === "ripen") first2 = Math.min(first2, this.#ready[i]);
    }
    for (let visit3 = this.#visits.length - 1; visit3 >= this.#firstVisit; visit3--) {
      least[visit3] = first2;
      for (const i of this.#left[visit3]) first2 = Math.min(first2, this.#ready[i]);
    }
    return least;
  }
  /* ---- how likely ---- */
  /** How likely it is, but for a factor, that a plant ended as it did if it came in on a day. */
  #weight(i, from) {
    const alike2 = this.#alike[i];
    const { growth, law, known: known2 } = alike2;
    const fate = this.#fate[i];
    const ready = this.#ready[i];
    const last2 = this.#visits.at(-1);
    if (growth.queued && growth.end !== "dead") {
      if (growth.end !== "standing" || fate === "ripen") return ready > from ? law.near(ready - from) : 0;
      return fate === "die" ? this.#dying(law, last2 - from) : this.#failing(law, last2 - from);
    }
    let weight = known2.get(from);
    if (weight === void 0) {
      weight = growth.end === "standing" ? this.#standingWeight(law, from) : this.#leavingWeight(alike2, from);
      known2.set(from, weight);
    }
    return weight;
  }
  #standingWeight(law, from) {
    const age = this.#visits.at(-1) - from;
    const sprouted = (1 - law.loss) * this.#growsOn(law, from) + law.loss * this.#dying(law, age);
    return law.germination * sprouted + (1 - law.germination) * this.#failing(law, age);
  }
  /** Of plants that are not lost, the share that still stands. */
  #growsOn(law, from) {
    return law.beyond(this.#leastStanding(law, from) - TICK - from);
  }
  /** Of plants that die, the share that stands by the log at an age. */
  #dying(law, age) {
    return this.#unlogged ? 1 : law.dyingBeyond(age);
  }
  /** Likewise of seeds that fail. */
  #failing(law, age) {
    return this.#unlogged ? 1 : law.beyond(age);
  }
  #leavingWeight({ growth, law }, from) {
    const day = this.#visits[growth.visit];
    if (day <= from) return 0;
    const before4 = growth.visit > 0 ? this.#visits[growth.visit - 1] - from : 0;
    if (growth.end === "dead") return law.dyingBeyond(before4) - law.dyingBeyond(day - from);
    if (growth.end === "discarded") return 1;
    const least = Math.max(before4, day - law.keeps - TICK - from);
    return law.readyBy(day - from) - law.readyBy(Math.max(0, least));
  }
};
var NOTHING = 1e-6;
var ENTRIES = 4;
function boundedSpan({ from, to }, law) {
  if (from !== -Infinity) return { from, to };
  const kept = Number.isFinite(law.keeps) ? law.keeps : 0;
  return { from: to - Math.ceil(law.quantile(0.99) + kept), to };
}

// sim/season/ahead/initial-states.ts
var FIRST_ROUNDS = 60;
var ROUNDS = 2;
var MOST_FATES = 1e7;
var FEWEST_OPENINGS = 12;
function initialStateOf(stand2, fates) {
  return { ...stand2, plants: { ...stand2.plants, ...fates } };
}
function column(Numbers, plants) {
  return new Numbers(new SharedArrayBuffer(plants * Numbers.BYTES_PER_ELEMENT));
}
var InitialStates = class {
  /** What stands; null if the season has not begun: futures begin with an empty line. */
  stand;
  /**
   * Plants that stand longer than nearly all such plants would, by the places of their batches and stages: they are taken as failed,
   * and cleared at the next visit. Told by the first opening that is drawn; a batch may have several entries.
   */
  overdue = [];
  #today;
  #pasts;
  /** Of the growths that stand in each stage, in turn: their places among all plants. */
  #places;
  /** All plants. */
  #plants;
  #drawn = [];
  /** Rounds that were done before the first opening. */
  #settled = 0;
  /** @param seed of the random streams */
  constructor(today, seed) {
    this.#today = today;
    const { plan } = today.season;
    const { visits: visits2, cohorts, short, unseen } = today;
    const growths = plan.stages.map(
      (_, s) => visits2.length === 0 ? { growths: [], firstVisit: 0 } : growthsOf(cohorts, s, plan, visits2, short[s], holesOf(plan.stages[s]))
    );
    this.#pasts = plan.stages.map((stage2, s) => {
      if (growths[s].growths.length === 0) return null;
      const courses = plan.crops.map((crop2) => growthLawsOf(crop2, s));
      const lawOf2 = ({ crop: crop2, phase }) => courses[crop2][phase];
      const uniform = openStream(seed, 0, ["ahead", stage2.name]);
      const unlogged = unseen.some((loss) => loss.stage === s);
      return new StagePast(growths[s], lawOf2, visits2, short[s], unlogged, uniform);
    });
    const standing = growths.map((one2) => one2.growths.filter(({ end }) => end === "standing"));
    const next2 = new Int32Array(today.season.batches.length + 1);
    for (const some of standing) for (const { batch } of some) next2[batch + 1]++;
    this.#plants = summedUp(next2).at(-1);
    const plants = {
      batch: column(Int32Array, this.#plants),
      crop: column(Uint8Array, this.#plants),
      stage: column(Uint8Array, this.#plants),
      cutsLeft: column(Uint8Array, this.#plants)
    };
    this.#places = standing.map((some, stage2) => {
      const places = new Int32Array(some.length);
      some.forEach(({ batch, crop: crop2, phase }, i) => {
        const place = next2[batch]++;
        const { cuts } = plan.crops[crop2];
        places[i] = place;
        plants.batch[place] = batch;
        plants.crop[place] = crop2;
        plants.stage[place] = stage2;
        plants.cutsLeft[place] = isLast(plan, stage2) ? cuts - phase : cuts;
      });
      return places;
    });
    this.stand = standOf(today, plants);
  }
  /**
   * Do the rounds before the first opening, which take a while where thousands stand.
   * @param pause asked after each @returns whether all were done
   */
  async settle(pause) {
    for (; this.#settled < FIRST_ROUNDS - 1; this.#settled++) {
      for (const past of this.#pasts) if (past?.settles === true) past.round();
      if (await pause?.(0) === false) return false;
    }
    return true;
  }
  /** What the opening of the k-th future says of the plants: the same at every call. */
  fates(k) {
    const opening = k % Math.max(FEWEST_OPENINGS, Math.floor(MOST_FATES / this.#plants));
    while (this.#drawn.length <= opening) this.#drawn.push(this.#draw(this.#drawn.length === 0));
    return this.#drawn[opening];
  }
  #draw(first2) {
    const day = this.#today.visits.at(-1);
    const next2 = column(Uint8Array, this.#plants);
    const at = column(Float64Array, this.#plants);
    this.#pasts.forEach((past, s) => {
      if (past === null) return;
      const rounds = past.settles ? first2 ? FIRST_ROUNDS - this.#settled : ROUNDS : 1;
      for (let i = 0; i < rounds; i++) past.round();
      let told = 0;
      past.tell(({ batch }, fate, when, overdue) => {
        const place = this.#places[s][told++];
        const end = fate === "ripen" && when <= day ? "ready" : fate;
        next2[place] = NEXT.indexOf(overdue ? "fail" : end);
        at[place] = overdue ? day + TICK : when;
        if (first2 && overdue) this.#countOverdue(batch, s);
      });
    });
    return { next: next2, at };
  }
  #countOverdue(batch, stage2) {
    const before4 = this.overdue.at(-1);
    if (before4?.batch === batch && before4.stage === stage2) before4.plants++;
    else this.overdue.push({ batch, stage: stage2, plants: 1 });
  }
};
function standOf({ season, visits: visits2, from, cleaning, reached }, plants) {
  const last2 = visits2.at(-1);
  if (last2 !== void 0) return { day: last2, visitsFrom: from, plants, cleaning, reached };
  const planned = dailyVisits(season.plan)[0];
  if (planned === void 0 || planned >= from) return null;
  return { day: from - 0.5, visitsFrom: from, plants, cleaning, reached };
}

// sim/models/result.ts
function success(value) {
  return { ok: true, value };
}
function failure(faults) {
  return { ok: false, faults };
}

// sim/season/history/attendance.ts
function attendance(season, cohorts) {
  const logged = new Set(season.events.map(({ day }) => day));
  const visits2 = [];
  const missed2 = [];
  const sowings = dueDays2(season);
  const free = freeCells(season, cohorts);
  let next2 = 0;
  let due = false;
  let silent = [];
  let absent = false;
  const endOfSilence = () => {
    for (const day of silent) (absent ? missed2 : visits2).push(day);
    silent = [];
    absent = false;
  };
  for (const day of daysToLookAt(season, logged)) {
    for (; next2 < sowings.length && sowings[next2] <= day; next2++) due = true;
    if (logged.has(day)) {
      endOfSilence();
      visits2.push(day);
      due = false;
    } else {
      silent.push(day);
      if (due && free[day] > 0) absent = true;
      else if (!absent) due = false;
    }
  }
  endOfSilence();
  return { visits: visits2, missed: missed2 };
}
function usualGap(visits2) {
  const gaps = visits2.slice(1).map((day, i) => day - visits2[i]);
  if (gaps.length === 0) return 0;
  gaps.sort((a, b) => a - b);
  return gaps[Math.floor(0.9 * (gaps.length - 1))];
}
function daysToLookAt({ plan, days: days2 }, logged) {
  const all = /* @__PURE__ */ new Set([...dailyVisits(plan).filter((day) => day < days2), ...logged]);
  return [...all].sort((a, b) => a - b);
}
function dueDays2({ plan, days: days2 }) {
  if (plan.stages.length === 1 && plan.crops.some(({ cuts }) => cuts > 1)) return [];
  return plan.crops.flatMap(({ sowing }) => sowing.kind === "due" ? sowing.days : []).filter((day) => day < days2).sort((a, b) => a - b);
}
function freeCells({ plan, days: days2 }, cohorts) {
  const first2 = first(plan);
  const stage2 = plan.stages[first2];
  const free = new Int32Array(days2 + 1);
  free[0] = holesOf(stage2);
  for (const cohort of cohorts[first2]) {
    free[cohort.seen] -= cohort.count;
    for (const { to, count, vacates } of cohort.stays) {
      const back = Math.ceil(to + toGrid(stage2.cleanDays));
      if (vacates && back <= days2) free[back] += count;
    }
  }
  return summedUp(free);
}

// sim/season/history/cohorts.ts
function cohortsOf(season) {
  const { plan, batches, events } = season;
  const cohorts = Array.from({ length: plan.stages.length + 1 }, () => []);
  const places = batches.map(({ crop: crop2 }) => new Places(plan.crops[crop2]));
  const enter2 = (batch, stage2, phase, day, count, since = null) => {
    const { crop: crop2 } = batches[batch];
    const from = since === null ? day : likelyEntry(since, growingOf(plan.crops[crop2], stage2, phase).time.days);
    const lot = { batch, crop: crop2, phase, from, seen: day, since, count, stays: [], left: count };
    cohorts[phase === 0 ? stage2 : plan.stages.length].push(lot);
    places[batch].add(stage2, phase, lot);
  };
  for (const event of events) {
    const { action, batch, stage: stage2, day, count } = event;
    if (action === "clean") continue;
    const crop2 = plan.crops[batches[batch].crop];
    if (action === "sow") enter2(batch, first(crop2), 0, day, count);
    else if (action === "stand") enter2(batch, stage2, 0, day, count, event.since);
    else if (action === "move") {
      leave(places[batch], before2(crop2, stage2), event, "on");
      enter2(batch, stage2, 0, day, count);
    } else if (action === "lose")
      leave(places[batch], stage2, event, event.loss ?? (stage2 === first(crop2) ? "failed" : "died"));
    else pick2(places[batch], event, (phase, n) => enter2(batch, last(crop2), phase, day, n));
  }
  for (const list of cohorts) {
    for (const cohort of list) {
      if (cohort.left > 0)
        cohort.stays.push({ to: Infinity, count: cohort.left, end: "standing", told: true, vacates: false });
    }
  }
  return cohorts;
}
function likelyEntry({ from, to }, days2) {
  return Math.round(from === -Infinity ? to - days2 / 2 : (from + to) / 2);
}
function leave(places, stage2, event, end) {
  const { action, day, count, loss, lot } = event;
  const told = action !== "lose" || loss !== null;
  const dead = end === "died" || end === "failed";
  const next2 = () => {
    if (lot !== void 0) return places.cameOn(stage2, lot);
    return dead ? places.latest(stage2, day) : places.earliest(stage2);
  };
  places.take(next2, count, (cohort, n) => {
    cohort.stays.push({ to: day, count: n, end, told, vacates: true });
  });
}
function pick2(places, { day, count }, regrow2) {
  const regrown = new Array(places.cuts).fill(0);
  const next2 = () => places.mostOverdue(day);
  places.take(next2, count, (cohort, n) => {
    const out = cohort.phase === places.cuts - 1;
    cohort.stays.push({ to: day, count: n, end: "picked", told: true, vacates: out });
    if (!out) regrown[cohort.phase + 1] += n;
  });
  regrown.forEach((n, phase) => {
    if (n > 0) regrow2(phase, n);
  });
}
var Places = class {
  cuts;
  #last;
  /** Stage s at s; plants of the last stage that have given k picks at last + k. */
  #cohorts;
  /** Mean growing time before each pick [d]. */
  #means;
  constructor(crop2) {
    const last2 = last(crop2);
    this.cuts = crop2.cuts;
    this.#last = last2;
    this.#cohorts = Array.from({ length: last2 + crop2.cuts }, () => []);
    this.#means = Array.from({ length: crop2.cuts }, (_, k) => growingOf(crop2, last2, k).time.days);
  }
  add(stage2, phase, cohort) {
    const lots = this.#cohorts[stage2 + phase];
    lots.push(cohort);
    if (cohort.since !== null) lots.sort((a, b) => a.from - b.from);
  }
  /** Take plants out lot by lot. @param next says of which lot the next ones are */
  take(next2, count, taken) {
    for (let left = count; left > 0; ) {
      const cohort = next2();
      if (cohort === void 0) return;
      const n = Math.min(left, cohort.left);
      cohort.left -= n;
      left -= n;
      if (cohort.left === 0) {
        for (const list of this.#cohorts) {
          const place = list.indexOf(cohort);
          if (place >= 0) list.splice(place, 1);
        }
      }
      taken(cohort, n);
    }
  }
  /** Of the plants in a stage (in the last one: of those that have given most picks) the lot that came first. */
  earliest(stage2) {
    return this.#mostPicked(stage2)[0];
  }
  /** The same, but the lot that came last, before `day` if there is one. */
  latest(stage2, day) {
    const cohorts = this.#mostPicked(stage2);
    for (let i = cohorts.length - 1; i >= 0; i--) if (cohorts[i].from < day) return cohorts[i];
    return cohorts[0];
  }
  /** A lot in a stage whose plants have given no pick, by the day on which they came. */
  cameOn(stage2, day) {
    return this.#cohorts[stage2].find(({ from }) => from === day);
  }
  /** Of the plants in the last stage, the lot that has waited longest by the plan's means. */
  mostOverdue(day) {
    let best;
    let most = -1;
    for (let phase = 0; phase < this.cuts; phase++) {
      const cohort = this.#cohorts[this.#last + phase][0];
      if (cohort === void 0) continue;
      const waited = (day - cohort.from) / this.#means[phase];
      if (waited > most) {
        most = waited;
        best = cohort;
      }
    }
    return best;
  }
  #mostPicked(stage2) {
    let place = stage2 < this.#last ? stage2 : this.#last + this.cuts - 1;
    while (place > stage2 && this.#cohorts[place].length === 0) place--;
    return this.#cohorts[place];
  }
};

// sim/season/log/faults.ts
function faultOfRows(rows, told) {
  return { line: rows[0].line, ...told, nearest: null, more: rows.length - 1 };
}

// sim/season/log/since.ts
var SINCE = /\bsince\s+([^\s,;]+)/i;
function sinceOf(note2) {
  const span2 = SINCE.exec(note2 ?? "")?.[1];
  if (span2 === void 0) return null;
  const [from, to = from] = span2.split("..");
  return { from, to };
}

// sim/season/history/losses.ts
var WORDS = [
  [/discard|thrown|overgrown|bolt|too (?:old|big|large|long)/i, "discarded"],
  [/fail|sprout|germinat|empty/i, "failed"],
  [/die|dead|death|rot|damp|wilt|mould|mold|pest|eaten/i, "died"]
];
function lossKind(note2) {
  if (note2 === null) return null;
  return WORDS.find(([words]) => words.test(note2))?.[1] ?? null;
}

// sim/season/history/logged-season.ts
function loggedSeason(rows, plan, planned, until = null) {
  const faults = [...outside(rows, plan), ...planned ? cropless(rows, plan) : []];
  if (faults.length > 0) return failure(faults);
  const stages = new Map(plan.stages.map(({ name: name2 }, s) => [name2, s]));
  const crops = new Map(plan.crops.map(({ name: name2 }, c) => [name2, c]));
  const places = /* @__PURE__ */ new Map();
  const batches = [];
  const events = [];
  const start = dayNumber(plan.start);
  let date2 = "";
  let day = 0;
  for (const row of rows) {
    if (row.date !== date2) {
      date2 = row.date;
      day = dayNumber(date2) - start;
    }
    if (row.action === "sow" || row.action === "stand" && !places.has(row.batch)) {
      places.set(row.batch, batches.length);
      const seeds2 = row.action === "sow" ? row.count : 0;
      batches.push({ name: row.batch, crop: crops.get(row.crop) ?? 0, sown: day, seeds: seeds2 });
    }
    const batch = row.action === "clean" ? -1 : places.get(row.batch);
    const stage2 = stages.get(row.stage);
    const { action, channel, count, grams } = row;
    const loss = action === "lose" ? lossKind(row.note) : null;
    const since = action === "stand" ? spanOf(row.note, day, plan.start) : null;
    events.push({ day, action, batch, stage: stage2, channel, count, grams, loss, since });
  }
  const days2 = until ?? (planned ? endOf2(day, plan) : day + 1);
  const visits2 = { kind: "days", days: dailyVisits(plan) };
  return success({ plan: { ...plan, visits: visits2 }, planned, days: days2, batches, events });
}
function spanOf(note2, day, start) {
  const since = sinceOf(note2);
  if (since === null) return { from: -Infinity, to: day };
  return { from: dayFrom(start, since.from), to: dayFrom(start, since.to) };
}
var NEAR_THE_END = 7;
function endOf2(lastRow, plan) {
  const days2 = dailyVisits(plan);
  let near = NEAR_THE_END;
  for (let i = 1; i < days2.length; i++) near = Math.max(near, days2[i] - days2[i - 1]);
  return lastRow >= seasonDays(plan) - near ? seasonDays(plan) : lastRow + 1;
}
function outside(rows, plan) {
  const behind = rows.filter(({ date: date2 }) => date2 > lastDate(plan));
  const faults = rowsBefore(rows, plan);
  if (behind.length > 0) {
    const weeks = Math.floor(dayFrom(plan.start, behind.at(-1).date) / 7) + 1;
    faults.push(dateFault(behind, inSeason(plan), `Set weeks: ${weeks} in the scenario.`));
  }
  return faults;
}
function rowsBefore(rows, plan) {
  const before4 = rows.filter(({ date: date2 }) => date2 < plan.start);
  if (before4.length === 0) return [];
  return [dateFault(before4, inSeason(plan), `Set start: ${before4[0].date} in the scenario.`)];
}
function inSeason(plan) {
  return `a date from ${plan.start} to ${lastDate(plan)}, the season of the scenario`;
}
function lastDate(plan) {
  return isoOfDay(plan.start, seasonDays(plan) - 1);
}
function dateFault(rows, expected, advice) {
  return faultOfRows(rows, { column: "date", found: rows[0].date, expected, advice });
}
function cropless(rows, plan) {
  if (plan.crops.length < 2) return [];
  const nameless = rows.filter(({ action, crop: crop2 }) => action === "sow" && crop2 === "");
  if (nameless.length === 0) return [];
  const expected = `one of the crops ${plan.crops.map(({ name: name2 }) => name2).join(", ")}`;
  const advice = "Say on the row of the sowing which crop it is.";
  return [faultOfRows(nameless, { column: "crop", found: "nothing", expected, advice })];
}

// sim/season/history/bare-plan.ts
var UNKNOWN = {
  time: { shape: "fixed", days: 1, spread: 0, times: [] },
  loss: 0,
  keeps: Number.POSITIVE_INFINITY
};

// sim/season/history/log-faults.ts
function crowded(rows, { plan, events }, cohorts) {
  const over = events.at(-1).day + 1;
  return plan.stages.flatMap((stage2, s) => {
    const surplus = surplusIn(plan, cohorts, s);
    if (surplus === 0) return [];
    const overdue = overdueLots(plan, cohorts[s], s, () => over);
    if (surplus <= sumOf(overdue.map(({ count }) => count))) return [];
    const holes = holesOf(stage2);
    const last2 = rows.findLast((row) => row.stage === stage2.name);
    return [
      faultOfRows([last2], {
        column: null,
        found: `${holes + surplus} plants in ${stage2.name} after the last row`,
        expected: `at most ${holes}, for the scenario has so many holes there`,
        advice: "Set channels and holes of the stage in the scenario, or log what was lost."
      })
    ];
  });
}

// sim/season/history/visits-before.ts
function visitsBefore(visits2, days2) {
  let count = 0;
  return Int32Array.from({ length: days2 + 1 }, (_, day) => {
    while (count < visits2.length && visits2[count] < day) count++;
    return count;
  });
}

// sim/season/history/readiness.ts
var Readiness = class {
  #visits;
  /** Place of the visit on a day, or of the next one. */
  #visitAt;
  #short;
  /** Last visit before visit i that left nothing ready behind; -1 if there is none. */
  #freeBefore;
  #keeps;
  /** [d from the start], one a visit */
  #cutoffs;
  /** Stretches of limited visits in which discarded plants cannot have been ready; by their `#freeBefore`. */
  #doubtful = /* @__PURE__ */ new Set();
  constructor({ plan, days: days2 }, s, cohorts, visits2, short) {
    this.#visits = visits2;
    this.#short = short;
    this.#visitAt = visitsBefore(visits2, days2);
    this.#freeBefore = new Int32Array(visits2.length + 1).fill(-1);
    for (let i = 0; i < visits2.length; i++)
      this.#freeBefore[i + 1] = short[i] === 0 ? i : this.#freeBefore[i];
    this.#keeps = plan.crops.map((crop2) => toGrid(crop2.stages[s].keeps));
    this.#cutoffs = new Float64Array(visits2.length);
    const means = plan.crops.map((crop2) => (phase) => growingOf(crop2, s, phase).time.days);
    const here = stageCohorts(cohorts, s, plan);
    while (this.#setCutoffs(here, means)) {
    }
  }
  /** What the log says of when the plants of a stay became ready or died. */
  of(cohort, stay) {
    const since = cohort.from + TICK;
    const keeps = this.#keeps[cohort.crop];
    if (stay.end === "standing") {
      const last2 = this.#visits.length - 1;
      if (last2 < 0) return { ready: true, earliest: since, latest: Infinity };
      const earliest2 = Math.max(since, this.#cutoffs[last2] + TICK, this.#visits[last2] - keeps);
      return { ready: true, earliest: earliest2, latest: Infinity };
    }
    const i = this.#visitAt[stay.to];
    const before4 = i === 0 ? -Infinity : this.#visits[i - 1];
    const cutBefore = i === 0 ? -Infinity : this.#cutoffs[i - 1];
    if (stay.end === "discarded" && this.#discardable(cohort, i)) {
      const earliest2 = Math.max(since, cutBefore + TICK, before4 - keeps);
      return { ready: true, earliest: earliest2, latest: stay.to - keeps - TICK };
    }
    if (stay.end === "on" || stay.end === "picked") {
      const earliest2 = Math.max(since, cutBefore + TICK, stay.to - keeps);
      return { ready: true, earliest: earliest2, latest: Math.max(earliest2, this.#cutoffs[i]) };
    }
    const earliest = Math.max(since, before4 + TICK);
    return { ready: false, earliest, latest: Math.max(earliest, stay.to) };
  }
  /**
   * Choose the cutoff of each visit.
   * @returns true if discarded plants stood in the way: they are taken for dead ones, and the cutoffs are to be set again
   */
  #setCutoffs(cohorts, means) {
    const visits2 = this.#visits;
    const short = this.#short;
    const went = new Uint8Array(visits2.length);
    const least = new Float64Array(visits2.length);
    const likely = new Float64Array(visits2.length);
    const most = Float64Array.from(visits2);
    for (const cohort of cohorts) {
      const keeps = this.#keeps[cohort.crop];
      const ready = cohort.from + means[cohort.crop](cohort.phase);
      for (const { to, end } of cohort.stays) {
        if (end !== "on" && end !== "picked" && end !== "discarded") continue;
        const i = this.#visitAt[to];
        if (end !== "discarded") {
          went[i] = 1;
          least[i] = Math.max(least[i], cohort.from + TICK, to - keeps);
          likely[i] = Math.max(likely[i], ready);
        } else if (i > 0 && short[i - 1] === 1 && this.#discardable(cohort, i)) {
          most[i - 1] = Math.min(most[i - 1], to - keeps - 2 * TICK);
        }
      }
    }
    for (let i = visits2.length - 2; i >= 0; i--) {
      if (short[i] === 1 && short[i + 1] === 1)
        most[i] = Math.min(most[i], most[i + 1] - went[i + 1] * TICK);
    }
    let again = false;
    for (let i = 0; i < visits2.length; i++) {
      const before4 = i === 0 ? 0 : this.#cutoffs[i - 1];
      if (short[i] === 0) this.#cutoffs[i] = visits2[i];
      else if (went[i] === 0) this.#cutoffs[i] = before4;
      else {
        const lowest = Math.max(least[i], before4 + TICK);
        if (lowest > most[i] && most[i] < visits2[i] && !this.#doubtful.has(this.#freeBefore[i])) {
          this.#doubtful.add(this.#freeBefore[i]);
          again = true;
        }
        this.#cutoffs[i] = Math.max(lowest, Math.min(most[i], toGrid(likely[i])));
      }
    }
    return again;
  }
  /** Whether a plant that was thrown away at visit i can have been ready for too long, and yet not gone on before. */
  #discardable(cohort, i) {
    const free = this.#freeBefore[i];
    if (this.#doubtful.has(free)) return false;
    const latest2 = this.#visits[i] - this.#keeps[cohort.crop] - TICK;
    return latest2 > cohort.from && latest2 > (free < 0 ? -1 : this.#visits[free]);
  }
};

// sim/season/history/short-visits.ts
function shortVisits(season, stages, visits2) {
  const wanted = wantedLeft(season);
  return stages.map((_, s) => {
    const next2 = next(season.plan, s);
    return Uint8Array.from(visits2, (day) => {
      const free = next2 < 0 ? wanted(day) : stages[next2].empty[day];
      return free > 0 ? 0 : 1;
    });
  });
}
function wantedLeft({ plan, events }) {
  const { want: want2 } = plan;
  if (want2 === null) return () => Infinity;
  const left = new Map(want2.days.map((day) => [day, want2.heads]));
  for (const { action, day, count } of events) {
    if (action === "pick") left.set(day, (left.get(day) ?? 0) - count);
  }
  return (day) => left.get(day) ?? 0;
}

// sim/season/history/silent-absence.ts
var CANNOT_BE = 1e-6;
function withoutSilentAbsences(season, cohorts, came) {
  const { plan, planned, events } = season;
  if (!planned || plan.want !== null) return came;
  const logged = [...new Set(events.map(({ day }) => day))];
  const long = 2 * usualGap(logged);
  const heads = stageCohorts(cohorts, last(plan), plan);
  const absent = /* @__PURE__ */ new Set();
  logged.slice(1).forEach((until, i) => {
    const since = logged[i];
    const silent = came.visits.filter((day) => since < day && day < until);
    const last2 = silent.at(-1);
    if (until - since <= long || last2 === void 0) return;
    let chance = 1;
    for (const { crop: crop2, phase, from, stays } of heads) {
      if (from > since) continue;
      const time2 = new GrowingTime(growingOf(plan.crops[crop2], last(plan), phase).time);
      const left = stays.filter(({ to, end }) => to >= until && end !== "died" && end !== "failed").reduce((sum, { count }) => sum + count, 0);
      if (left > 0) chance *= power(time2.beyond(last2 - from) / time2.beyond(since - from), left);
    }
    if (chance < CANNOT_BE) for (const day of silent) absent.add(day);
  });
  if (absent.size === 0) return came;
  return {
    visits: came.visits.filter((day) => !absent.has(day)),
    missed: [...came.missed, ...absent].sort((a, b) => a - b)
  };
}

// sim/season/history/unseen-losses.ts
function unseenLosses(season, cohorts, visits2, readiness) {
  const { plan } = season;
  return plan.stages.flatMap(
    (_, s) => goneFrom(season, cohorts, s, readiness[s]).map(
      ({ cohort: { batch, crop: crop2, from, seen }, count, ready }) => ({
        day: visits2.find((visit3) => visit3 >= ready && visit3 > seen) ?? visits2.at(-1),
        action: "lose",
        batch,
        stage: s,
        channel: null,
        count,
        grams: null,
        loss: s === first(plan.crops[crop2]) ? "failed" : "died",
        since: null,
        lot: from
      })
    )
  );
}
function goneFrom({ plan, days: days2 }, cohorts, s, readiness) {
  const lots = cohorts[s].filter(({ crop: crop2 }) => plan.crops[crop2].cuts === 1 || !isLast(plan, s));
  const gone = overdueLots(plan, lots, s, (cohort, stay) => readiness.of(cohort, stay).earliest);
  let left = surplusIn(plan, cohorts, s) - sumOf(gone.map(({ count }) => count));
  if (left <= 0) return gone;
  const others = lots.filter((lot) => !gone.some(({ cohort }) => cohort === lot));
  for (const lot of overdueLots(plan, others, s, () => days2)) {
    const count = Math.min(left, lot.count);
    if (count > 0) gone.push({ ...lot, count });
    left -= count;
  }
  return gone;
}

// sim/season/history/season-behind.ts
function seasonBehind(logged) {
  const unseen = [];
  for (let rounds = 0; ; rounds++) {
    const season = withEvents(logged, unseen);
    const cohorts = cohortsOf(season);
    const came = withoutSilentAbsences(season, cohorts, attendance(season, cohorts));
    const days2 = occupancy(season, cohorts, came.visits);
    const short = shortVisits(season, days2, came.visits);
    const readiness = short.map((of, s) => new Readiness(season, s, cohorts, came.visits, of));
    const more = unseenLosses(season, cohorts, came.visits, readiness);
    if (more.length === 0 || rounds > season.plan.stages.length)
      return { season, unseen, cohorts, came, days: days2, short, readiness };
    unseen.push(...more);
  }
}
function lossesForWantOfRoom(logged, cohorts) {
  const full = logged.plan.stages.map((_, s) => surplusIn(logged.plan, cohorts, s) > 0);
  return full.includes(true) ? seasonBehind(logged).unseen.filter(({ stage: stage2 }) => full[stage2]) : [];
}
function withEvents(season, more) {
  if (more.length === 0) return season;
  return { ...season, events: [...season.events, ...more].sort((a, b) => a.day - b.day) };
}

// sim/season/ahead/today.ts
function todayOf(rows, plan, date2) {
  const lastRow = rows.at(-1);
  const later = date2 === null ? [] : rows.filter((row) => row.date > date2);
  if (later.length > 0) {
    const advice = `Look ahead from ${later.at(-1).date}, or from a later day.`;
    return failure([dateFault(later, `no row after ${date2}, the day from which to look ahead`, advice)]);
  }
  const day = dayFrom(plan.start, date2 ?? lastRow?.date ?? plan.start);
  const from = Math.max(
    0,
    lastRow !== void 0 && dayFrom(plan.start, lastRow.date) === day ? day + 1 : day
  );
  const framing = loggedSeason(rows, plan, true, from);
  if (!framing.ok) return framing;
  const logged = framing.value;
  const told = cohortsOf(logged);
  const faults = rows.length === 0 ? [] : crowded(rows, logged, told);
  if (faults.length > 0) return failure(faults);
  const unseen = lossesForWantOfRoom(logged, told);
  const season = withEvents(logged, unseen);
  const cohorts = unseen.length === 0 ? told : cohortsOf(season);
  const { visits: visits2, missed: missed2 } = attendance(season, cohorts);
  const stages = occupancy(season, cohorts, visits2);
  const lastVisit = visits2.at(-1) ?? -1;
  return success({
    season,
    unseen,
    cohorts,
    from,
    visits: visits2,
    missed: rows.length === 0 ? [] : missed2.filter((missing2) => missing2 > lastVisit),
    short: shortVisits(season, stages, visits2),
    cleaning: lastVisit < 0 ? [] : stages.flatMap((_, s) => cleaningNow(season, cohorts, stages, s, lastVisit)),
    reached: plan.stages.map((_, s) => cohorts[s].length > 0)
  });
}
function cleaningNow({ plan, days: days2 }, cohorts, stages, s, lastVisit) {
  const { cleaning, logged, rests } = stages[s];
  const cleanDays = toGrid(plan.stages[s].cleanDays);
  const found = [];
  const take = (most, given) => {
    let left = most;
    for (const { holes, until } of given) {
      const taken = Math.min(left, holes);
      if (taken > 0) found.push({ stage: s, holes: taken, until: Math.max(lastVisit, until) });
      left -= taken;
    }
  };
  const byRows = Math.min(logged[lastVisit], cleaning[lastVisit]);
  const afterPlants = stageCohorts(cohorts, s, plan).flatMap(
    ({ stays }) => stays.filter(({ to, vacates }) => vacates && to + cleanDays > lastVisit).map(({ to, count }) => ({ holes: count, until: to + cleanDays }))
  );
  take(cleaning[lastVisit] - byRows, afterPlants);
  const open = rests.filter(({ to }) => to >= days2);
  take(
    byRows,
    open.map(({ holes, from }) => ({ holes, until: from + cleanDays }))
  );
  return found;
}

// tests/support/cut-log.ts
var VAGUE = 2;
function cutLog(rows, plan, day, memory) {
  const begin = isoOfDay(plan.start, day);
  const framing = loggedSeason(
    rows.filter(({ date: date2 }) => date2 < begin),
    plan,
    true,
    day
  );
  if (!framing.ok) throw new Error("the log is not one of the plan");
  const { batches } = framing.value;
  const chance = stream(
    rows.reduce((sum, { count }, i) => sum + count * (i + 1), 0),
    0,
    ["memory"]
  );
  const stand2 = cohortsOf(framing.value).slice(0, plan.stages.length).flatMap(
    (lots, s) => lots.flatMap(({ batch, from, stays }) => {
      const count = stays.reduce((sum, { end, count: count2 }) => sum + (end === "standing" ? count2 : 0), 0);
      if (count === 0) return [];
      const came = lots.filter((lot) => lot.batch === batch).map((lot) => lot.from);
      const early = from - Math.floor(chance() * VAGUE);
      const iso2 = (d) => isoOfDay(plan.start, Math.min(d, day));
      const since = {
        day: iso2(from),
        span: `${iso2(Math.min(...came))}..${iso2(Math.max(...came))}`,
        vague: `${iso2(early)}..${iso2(early + VAGUE - 1)}`,
        none: null
      }[memory];
      return [
        {
          line: 0,
          date: begin,
          action: "stand",
          crop: plan.crops[batches[batch].crop].name,
          batch: batches[batch].name,
          stage: plan.stages[s].name,
          channel: null,
          count,
          grams: null,
          note: since === null ? null : `since ${since}`
        }
      ];
    })
  );
  return [...stand2, ...rows.filter(({ date: date2 }) => date2 >= begin)];
}

// tests/support/examples.ts
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";

// sim/scenario/cross-checks.ts
var MOST_HOLES = 2e6;
function crossFaults(data) {
  if (!isMap(data)) return [];
  const names = stageNames(data["stages"]);
  const crops = listOf(data["crops"]);
  const want2 = isMap(data["want"]) ? data["want"]["on"] : void 0;
  return [
    ...awayFaults(data),
    ...repeated(data["visits"], ["visits"], "every weekday once"),
    ...stageFaults(data["stages"]),
    ...repeated(namesOf(crops), ["crops"], "a name that no other crop has", ["name"]),
    ...crops.flatMap((crop2, i) => isMap(crop2) ? cropFaults(crop2, ["crops", i], names) : []),
    ...repeated(want2, ["want", "on"], "every weekday once")
  ];
}
function awayFaults(data) {
  const spans = listOf(data["away"]);
  const drafts = [];
  if (data["visits"] === "always" && spans.length > 0) {
    drafts.push({
      path: ["away"],
      at: "key",
      found: "the key away with visits: always",
      expected: "no away with visits: always (away needs visit days)",
      advice: "Use visits: daily, or leave away out."
    });
  }
  for (const [i, span2] of spans.entries()) {
    if (!isMap(span2)) continue;
    const { from, to } = span2;
    if (!(isDate(from) && isDate(to)) || dayNumber(from) <= dayNumber(to)) continue;
    drafts.push({
      path: ["away", i, "to"],
      at: "value",
      found: `${foundText(to)}, before from`,
      expected: `a date that is not before ${from}`,
      advice: "Swap from and to?"
    });
  }
  return drafts;
}
function stageFaults(stages) {
  const drafts = repeated(namesOf(stages), ["stages"], "a name that no other stage has", ["name"]);
  let holes = 0;
  for (const stage2 of listOf(stages)) {
    if (!isMap(stage2)) continue;
    const { channels, holes: perChannel } = stage2;
    if (passes(["stages", 0, "channels"], channels) && passes(["stages", 0, "holes"], perChannel)) {
      holes += Number(channels) * Number(perChannel);
    }
  }
  if (holes > MOST_HOLES) {
    const expected = `at most ${MOST_HOLES} holes in the whole line`;
    drafts.push({
      path: ["stages"],
      at: "value",
      found: `${holes} holes in all (channels times holes)`,
      expected
    });
  }
  return drafts;
}
function cropFaults(crop2, path, names) {
  const { sow: sow3, stages, regrow: regrow2 } = crop2;
  return [
    ...regrowFaults(crop2, path),
    ...isMap(sow3) ? repeated(sow3["on"], [...path, "sow", "on"], "every weekday once") : [],
    ...isMap(sow3) ? repeated(sow3["dates"], [...path, "sow", "dates"], "every date once") : [],
    ...isMap(regrow2) ? growthFaults(regrow2, [...path, "regrow"]) : [],
    ...isMap(stages) ? cropStageFaults(stages, [...path, "stages"], names) : []
  ];
}
function cropStageFaults(stages, path, names) {
  const growths = Object.entries(stages).flatMap(
    ([name2, growing2]) => isMap(growing2) ? growthFaults(growing2, [...path, name2]) : []
  );
  if (names === null) return growths;
  const unknown = Object.keys(stages).filter((name2) => !names.includes(name2));
  const absent = names.filter((name2) => !Object.hasOwn(stages, name2));
  return [
    ...growths,
    ...unknown.map((name2) => unknownStage(name2, path, names)),
    ...absent.map((name2) => missingStage(name2, [...path, name2]))
  ];
}
function unknownStage(name2, path, names) {
  const expected = `a stage of the line: ${names.join(", ")}`;
  return { ...unknownKey(name2, path, names), found: `the stage ${wordText(name2)}`, expected };
}
function missingStage(name2, path) {
  return {
    path,
    at: "parent",
    found: "nothing",
    expected: "an entry for each stage of the line",
    advice: `Example: ${name2}: {days: 14, spread: 0.12}`
  };
}
function regrowFaults(crop2, path) {
  const cuts = crop2["cuts"] === void 0 ? 1 : crop2["cuts"];
  const there = Object.hasOwn(crop2, "regrow");
  if (!passes(["crops", 0, "cuts"], cuts)) return [];
  if (Number(cuts) > 1 && !there) {
    const draft = missing(scenarioSchema, [...path, "regrow"]);
    return [{ ...draft, advice: `A plant with cuts: ${cuts} grows again after a pick. ${draft.advice}` }];
  }
  if (!(cuts === 1 && there)) return [];
  return [
    {
      path: [...path, "regrow"],
      at: "key",
      found: "the key regrow with one cut",
      expected: "regrow only with cuts above 1",
      advice: "Add cuts: 2 (or more), or leave regrow out."
    }
  ];
}
function namesOf(list) {
  return listOf(list).map((item) => isMap(item) ? item["name"] : void 0);
}
function repeated(list, path, expected, within2 = []) {
  const seen = /* @__PURE__ */ new Set();
  return listOf(list).flatMap((item, i) => {
    if (typeof item !== "string") return [];
    if (seen.has(item)) {
      const found = `${foundText(item)} a second time`;
      return [{ path: [...path, i, ...within2], at: "value", found, expected }];
    }
    seen.add(item);
    return [];
  });
}
function stageNames(stages) {
  const names = namesOf(stages);
  if (names.length === 0 || !names.every((name2) => passes(["stages", 0, "name"], name2))) return null;
  return [...new Set(names)];
}
function passes(path, value) {
  return schemaAt(scenarioSchema, path)?.safeParse(value).success === true;
}
function isDate(value) {
  return typeof value === "string" && isIsoDate(value);
}

// sim/scenario/syntax.ts
import { CST, Lexer, LineCounter, parseDocument } from "yaml";
var FOUND = {
  BAD_INDENT: "a line that begins in the wrong column, or a bracket that is not closed",
  TAB_AS_INDENT: "a tab at the beginning of a line",
  MISSING_CHAR: "something missing: a quote, bracket, comma, colon or space",
  BLOCK_AS_IMPLICIT_KEY: "two keys in one line, or a line that begins in the wrong column",
  MULTILINE_IMPLICIT_KEY: "a key without a colon behind it",
  KEY_OVER_1024_CHARS: "a very long key",
  BLOCK_IN_FLOW: "lines with keys inside brackets",
  BAD_SCALAR_START: "a value that begins with a sign for which it needs quotes",
  UNEXPECTED_TOKEN: "a sign that does not belong there",
  TAG_RESOLVE_FAILED: "a tag (!)",
  BAD_DIRECTIVE: "a line that begins with %",
  BAD_ALIAS: "an alias (*) without a name",
  BAD_DQ_ESCAPE: "a \\ in double quotes"
};
var EXPECTED = {
  BAD_INDENT: "lines that belong together to begin in the same column, and every bracket to be closed",
  TAB_AS_INDENT: "spaces for indentation",
  MISSING_CHAR: "every quote and bracket to be closed, and a colon after every key",
  MULTIPLE_DOCS: "one document in a file (no second ---)",
  BLOCK_AS_IMPLICIT_KEY: "one key: value in a line",
  MULTILINE_IMPLICIT_KEY: "a key and its colon on one line",
  KEY_OVER_1024_CHARS: "a short key",
  TAG_RESOLVE_FAILED: "a value without a tag (no !)",
  BAD_DIRECTIVE: "a file without directives (no %)",
  BAD_ALIAS: "an alias with the name of an anchor, e.g. *usual",
  BAD_DQ_ESCAPE: 'a text in which \\ stands only before n, t, " or \\ (or use single quotes)'
};
function parseYaml(text) {
  const lines = new LineCounter();
  const place = placeOfTooMuch(text);
  if (place !== null) {
    const before4 = text.slice(0, place).split("\n");
    const found = `more than ${MOST_SIGNS} values and signs`;
    const expected = "a scenario, which has some hundreds";
    const at = { line: before4.length, column: before4.at(-1).length + 1 };
    return failure([faultAt(at, { path: [], found, expected })]);
  }
  let document;
  try {
    document = parseDocument(text, {
      lineCounter: lines,
      // Duplicate keys are found with the other faults, in linear time (see tree.ts).
      uniqueKeys: false,
      prettyErrors: false,
      // A %YAML 1.1 line must not turn `no` into false or dates into objects.
      schema: "core",
      resolveKnownTags: false,
      logLevel: "error"
    });
  } catch (error) {
    const found = `a text that cannot be parsed (${error instanceof Error ? error.message : String(error)})`;
    return failure([faultAt({ line: 1, column: 1 }, { path: [], found, expected: "a scenario as YAML" })]);
  }
  const problems = [...document.errors, ...document.warnings];
  return problems.length === 0 ? success({ document, lines }) : failure(syntaxFaults(problems, lines));
}
var MOST_SIGNS = 1e5;
var MARKS = /* @__PURE__ */ new Set([CST.DOCUMENT, CST.FLOW_END, CST.SCALAR]);
function placeOfTooMuch(text) {
  if (text.length <= MOST_SIGNS) return null;
  let signs = 0;
  let place = 0;
  for (const piece of new Lexer().lex(text)) {
    if (MARKS.has(piece)) continue;
    if (/[^\s#]/.test(piece[0]) && ++signs > MOST_SIGNS) return place;
    place += piece.length;
  }
  return null;
}
function syntaxFaults(problems, lines) {
  const byLine = /* @__PURE__ */ new Map();
  const ordered = problems.map((problem) => syntaxFault(problem, lines)).sort(byPosition);
  for (const fault of ordered) {
    if (!byLine.has(fault.line)) byLine.set(fault.line, fault);
  }
  return [...byLine.values()];
}
function syntaxFault(problem, lines) {
  const { line, col } = lines.linePos(problem.pos[0]);
  const several = problem.code === "MULTIPLE_DOCS";
  return faultAt(
    { line: Math.max(1, line), column: Math.max(1, col) },
    {
      path: [],
      found: several ? "a second document" : `${FOUND[problem.code] ?? "what cannot be read"} (not YAML: ${lowerFirst(problem.message)})`,
      expected: EXPECTED[problem.code] ?? "YAML: key: value lines, indented by spaces, or JSON"
    }
  );
}
function lowerFirst(message) {
  return message.charAt(0).toLowerCase() + message.slice(1, 200).replace(/\.$/, "");
}

// sim/scenario/text-checks.ts
var MOST_CHARACTERS = 1e6;
var MOST_NESTING = 100;
var MOST_INDENT = 200;
var NOT_TEXT = /[\u0000-\u0008\u000B\u000C\u000E-\u001F\u007F\uFFFD]/;
function textFault(text) {
  if (text.length > MOST_CHARACTERS) {
    return faultIn(text, 0, `a text of ${text.length} characters`, `at most ${MOST_CHARACTERS} characters`);
  }
  const odd = NOT_TEXT.exec(text);
  if (odd !== null) {
    const code = odd[0].codePointAt(0);
    const found = code === 65533 ? "bytes that are not UTF-8" : `a character that is not text (code ${code})`;
    return faultIn(text, odd.index, found, "a text file in UTF-8", "Save the file as plain text in UTF-8.");
  }
  const deep = tooDeepAt(text);
  if (deep === -1) return null;
  return faultIn(
    text,
    deep,
    "brackets or lists nested too deep",
    "at most 100 levels",
    "Is a closing bracket missing?"
  );
}
function tooDeepAt(text) {
  let open = 0;
  for (let at = 0; at < text.length; at++) {
    const sign = text[at];
    if (sign === "[" || sign === "{") open++;
    else if ((sign === "]" || sign === "}") && open > 0) open--;
    if (open > MOST_NESTING) return at;
  }
  let lineStart = 0;
  for (const line of text.split("\n")) {
    const lead = /^[ \t\-?:]*/.exec(line)?.[0].length ?? 0;
    if (lead > MOST_INDENT && line.trim() !== "") return lineStart + MOST_INDENT;
    lineStart += line.length + 1;
  }
  return -1;
}
function faultIn(text, at, found, expected, advice) {
  const before4 = text.slice(0, at);
  const line = before4.split("\n").length;
  const column2 = at - before4.lastIndexOf("\n");
  return faultAt({ line, column: column2 }, { path: [], found, expected, advice });
}

// sim/scenario/tree.ts
import {
  isAlias,
  isMap as isMap2,
  isScalar,
  isSeq,
  visit as visit2
} from "yaml";
var MOST_VALUES = 1e6;
var MOST_LEVELS = 100;
var MERGE = "<<";
var Tree = class {
  /** The file as plain values: maps without prototype, lists, texts, numbers, booleans, null. */
  value;
  /** What is wrong with the tree itself: duplicate keys, keys that are no words, endless aliases. */
  faults = [];
  #document;
  #lines;
  #anchored = /* @__PURE__ */ new Map();
  #entries = /* @__PURE__ */ new Map();
  #count = 0;
  constructor(document, lines) {
    this.#document = document;
    this.#lines = lines;
    this.#findAnchors();
    try {
      this.value = this.#valueOf(document.contents, [], 0);
    } catch (error) {
      if (!(error instanceof TooMuch)) throw error;
      this.value = void 0;
      this.faults = [error.fault];
    }
  }
  /** A draft with the line and column at which it points. */
  locate(draft) {
    return faultAt(this.position(draft.path, draft.at), draft);
  }
  /**
   * Line and column (1-based) of a value, of its key, or of the map around it. What is not in the file is where the
   * nearest thing around it is.
   */
  position(path, at) {
    let node = this.#target(this.#document.contents);
    let key = node;
    let parent = node;
    for (const step of path) {
      if (!(isMap2(node) || isSeq(node))) break;
      parent = node;
      const entry = isMap2(node) ? this.#entriesOf(node, []).get(String(step)) : { key: node.items[Number(step)], value: node.items[Number(step)] };
      if (entry?.key === void 0) break;
      key = entry.key;
      node = this.#target(entry.value) ?? entry.value ?? entry.key;
    }
    return this.#positionOf(at === "value" ? node : at === "key" ? key : parent);
  }
  #positionOf(node) {
    const { line, col } = this.#lines.linePos(node?.range?.[0] ?? 0);
    return { line: Math.max(1, line), column: Math.max(1, col) };
  }
  /** Notes for every alias what it stands for: the anchor of its name that was set last before it. */
  #findAnchors() {
    const anchors = /* @__PURE__ */ new Map();
    visit2(this.#document, {
      Alias: (_, alias) => void this.#anchored.set(alias, anchors.get(alias.source) ?? null),
      Value: (_, node) => {
        if (node.anchor !== void 0) anchors.set(node.anchor, node);
      }
    });
  }
  /** The node itself, or what an alias stands for; null if that is nothing. */
  #target(node) {
    return isAlias(node) ? this.#anchored.get(node) ?? null : node;
  }
  #valueOf(written, path, level) {
    const node = this.#target(written);
    if (node === null) {
      if (isAlias(written)) this.#unknownAlias(written.source, written, path);
      return null;
    }
    this.#oneMore(written);
    if (level > MOST_LEVELS) this.#giveUp(written, "brackets or lists nested too deep");
    if (isMap2(node)) {
      const map2 = /* @__PURE__ */ Object.create(null);
      for (const [key, entry] of this.#entriesOf(node, path)) {
        map2[key] = this.#valueOf(entry.value, [...path, key], level + 1);
      }
      return map2;
    }
    if (isSeq(node)) return node.items.map((item, i) => this.#valueOf(item, [...path, i], level + 1));
    return isScalar(node) ? node.value === 0 ? 0 : node.value : null;
  }
  /** Counts a value, so that aliases of aliases come to an end. */
  #oneMore(at) {
    this.#count++;
    if (this.#count > MOST_VALUES) this.#giveUp(at, `more than ${MOST_VALUES} values`);
  }
  #giveUp(at, found) {
    const expected = "a scenario in which aliases (*) do not multiply without end";
    throw new TooMuch(faultAt(this.#positionOf(at), { path: [], found, expected }));
  }
  /** The entries of a map, the merged ones (`<<`) last and only where the map has none of its own. */
  #entriesOf(map2, path) {
    const known2 = this.#entries.get(map2);
    if (known2 !== void 0) return known2;
    const entries = /* @__PURE__ */ new Map();
    const merged = [];
    this.#entries.set(map2, entries);
    for (const pair of map2.items) {
      const key = this.#target(pair.key);
      const entry = { key: pair.key ?? map2, value: pair.value };
      const word = keyWord(key);
      if (word === null) this.#noWord(entry.key, key, path);
      else if (word === MERGE) merged.push(entry);
      else if (entries.has(word)) this.#duplicate(word, entry.key, entries.get(word).key, path);
      else entries.set(word, entry);
    }
    for (const entry of merged) this.#merge(entry, entries, path);
    return entries;
  }
  #merge(entry, entries, path) {
    const source = this.#target(entry.value);
    const maps = isSeq(source) ? source.items.map((item) => this.#target(item)) : [source];
    for (const map2 of maps) {
      if (isMap2(map2)) {
        for (const [word, merged] of this.#entriesOf(map2, path)) {
          this.#oneMore(entry.key);
          if (!entries.has(word)) entries.set(word, merged);
        }
        continue;
      }
      this.#fault(
        entry.key,
        [...path, MERGE],
        "a merge (<<) of what has no keys (no map)",
        "an alias of what has keys, e.g. <<: *usual"
      );
    }
  }
  #duplicate(word, key, first2, path) {
    const found = `the key ${wordText(word)} a second time (first in line ${this.#positionOf(first2).line})`;
    this.#fault(key, [...path, word], found, "every key once");
  }
  #noWord(at, key, path) {
    const what = isScalar(key) && key.value !== null ? foundText(key.value) : isMap2(key) ? "keys and values (a map)" : "a list";
    const found = key === null || isScalar(key) && key.value === null ? "an empty key" : `${what} as a key`;
    this.#fault(at, path, found, "a word as a key");
  }
  #unknownAlias(name2, at, path) {
    this.#fault(
      at,
      path,
      `the alias *${name2} without an anchor`,
      `an anchor &${name2} further up in the file`
    );
  }
  #fault(at, path, found, expected) {
    this.faults.push(faultAt(this.#positionOf(at), { path, found, expected }));
  }
};
function keyWord(key) {
  if (!isScalar(key)) return null;
  const { value, source } = key;
  if (value === "__proto__" || value === null) return null;
  return typeof value === "string" ? value : source ?? String(value);
}
var TooMuch = class extends Error {
  fault;
  constructor(fault) {
    super(fault.found);
    this.fault = fault;
  }
};

// sim/scenario/warnings.ts
function warningsOf(scenario, plan) {
  return [
    ...spansOutside(scenario),
    ...unattendedWants(scenario, plan),
    ...datesOutside(scenario),
    ...seedsBeyondCells(plan),
    ...shortSeasons(plan)
  ];
}
function spansOutside({ away, start, weeks }) {
  return away.flatMap(({ from, to }, i) => {
    const side = sideOf(to, start, weeks);
    if (side === null || side !== sideOf(from, start, weeks)) return [];
    return [{ path: ["away", i], message: `${from} to ${to} is ${side} of the season: it changes nothing.` }];
  });
}
function sideOf(date2, start, weeks) {
  const day = dayFrom(start, date2);
  return day < 0 ? "before the start" : day >= weeks * 7 ? "after the end" : null;
}
function unattendedWants({ want: want2, start }, { visits: visits2 }) {
  if (want2 === void 0 || visits2.kind === "always") return [];
  const visited = new Set(visits2.days.map((day) => WEEKDAYS[weekdayOfDay(start, day)]));
  return want2.on.flatMap(
    (weekday2, i) => visited.has(weekday2) ? [] : [
      {
        path: ["want", "on", i],
        message: `There is never a visit on ${weekday2}: nobody is there to pick, so all heads wanted that day are short.`
      }
    ]
  );
}
function datesOutside({ crops, start, weeks }) {
  return crops.flatMap(
    ({ sow: sow3 }, i) => !("dates" in sow3) ? [] : sow3.dates.flatMap((date2, k) => {
      const side = sideOf(date2, start, weeks);
      if (side === null) return [];
      return [
        { path: ["crops", i, "sow", "dates", k], message: `${date2} is ${side} of the season: not sown.` }
      ];
    })
  );
}
function seedsBeyondCells(plan) {
  const first2 = plan.stages[first(plan)];
  const cells = holesOf(first2);
  return plan.crops.flatMap(
    ({ name: name2, sowing }, i) => sowing.kind === "refill" || sowing.seeds <= cells ? [] : [
      {
        path: ["crops", i, "sow", "seeds"],
        message: `${sowing.seeds} seeds of ${name2} are sown at a time, and ${first2.name} has ${cells} cells: ${sowing.seeds - cells} or more of them cannot be sown.`
      }
    ]
  );
}
function shortSeasons({ crops, weeks }) {
  return crops.flatMap(({ name: name2, stages }, i) => {
    const days2 = stages.reduce((sum, { time: time2 }) => sum + time2.days, 0);
    if (days2 < weeks * 7) return [];
    const rounded = Number(days2.toPrecision(6));
    const message = `${name2} needs ${rounded} days on average, the season has ${weeks * 7}: hardly anything will be picked before its end.`;
    return [{ path: ["crops", i, "stages"], message }];
  });
}

// sim/scenario/read.ts
function readScenario(text) {
  const content = text.startsWith("\uFEFF") ? text.slice(1) : text;
  const unfit = textFault(content);
  if (unfit !== null) return failure([unfit]);
  const parsed = parseYaml(content);
  if (!parsed.ok) return parsed;
  const tree = new Tree(parsed.value.document, parsed.value.lines);
  if (tree.value === void 0) return failure(tree.faults);
  return check(tree);
}
function check(tree) {
  if (tree.value === null) {
    const empty = { ...wrongValue(scenarioSchema, [], null), found: "an empty file" };
    return failure([...tree.faults, tree.locate(empty)].sort(byPosition));
  }
  const read = scenarioSchema.safeParse(tree.value);
  const drafts = [
    ...read.success ? [] : issuesToFaults(scenarioSchema, tree.value, read.error.issues),
    ...crossFaults(tree.value)
  ];
  const place = ({ line, column: column2, path }) => `${line}:${column2} ${path}`;
  const broken = new Set(tree.faults.map(place));
  const located = withoutEchoes(drafts).map((draft) => tree.locate(draft)).filter((fault) => !broken.has(place(fault)));
  const faults = [...tree.faults, ...located].sort(byPosition);
  if (faults.length > 0 || !read.success) return failure(faults);
  const plan = toPlan(read.data);
  const warnings = warningsOf(read.data, plan).map(({ path, message }) => {
    return { path: pathText(path), ...tree.position(path, "value"), message };
  });
  return success({ plan, scenario: read.data, warnings: warnings.sort(byPosition) });
}
function withoutEchoes(drafts) {
  const meant = /* @__PURE__ */ new Set();
  for (const { path, at, nearest: nearest2 } of drafts) {
    if (at === "key" && nearest2 != null) meant.add(JSON.stringify([...path.slice(0, -1), nearest2]));
  }
  const seen = /* @__PURE__ */ new Set();
  return drafts.filter(({ path, at, expected }) => {
    const place = JSON.stringify(path);
    const same = `${place} ${expected}`;
    if (seen.has(same) || at === "parent" && meant.has(place)) return false;
    seen.add(same);
    return true;
  });
}

// tests/support/examples.ts
var EXAMPLES = fileURLToPath(new URL("../../scenarios/", "file:///work/wt/speed-a/tests/support/x.ts"));
var SHELF = `${EXAMPLES}home-shelf.yaml`;
var SHELF_LOG = `${EXAMPLES}logs/cellar-2027.csv`;
function readExample(path, change = (text) => text) {
  const read = readScenario(change(readFileSync(path, "utf8")));
  if (!read.ok) throw new Error(`${path}: ${JSON.stringify(read.faults)}`);
  return read.value;
}

// tests/support/openings.ts
function openingOf(openings, k) {
  return openings.stand && initialStateOf(openings.stand, openings.fates(k));
}

// tests/support/simulated-log.ts
function simulatedLog(plan, seed, season, options = {}) {
  if (plan.visits.kind === "always") throw new RangeError("a log needs visits on days");
  const logbook = new Logbook(plan, options);
  new Line(plan, options).run(seed, season, logbook);
  return logbook.rows();
}
var ACTION_OF = {
  sow: "sow",
  move: "move",
  pick: "pick",
  discard: "lose",
  clear: "lose",
  ripen: null,
  die: null,
  fail: null
};
var Logbook = class {
  #plan;
  #until;
  #channels;
  /** Rows by what they have in common, in the order of their first plant. */
  #rows = /* @__PURE__ */ new Map();
  #batchOfPlant = [];
  #batchNames = /* @__PURE__ */ new Map();
  #endOfPlant = /* @__PURE__ */ new Map();
  #firstHole = [];
  /** Of the visit at which the deeds are done, and its date. */
  #visit = Number.NaN;
  #date = "";
  constructor(plan, { until = Infinity, channels = false }) {
    this.#plan = plan;
    this.#until = until;
    this.#channels = channels;
    let holes = 0;
    for (const stage2 of plan.stages) {
      this.#firstHole.push(holes);
      holes += stage2.channels * stage2.holesPerChannel;
    }
  }
  rows() {
    return [...this.#rows.values()];
  }
  onEvent(t, deed, plant, crop2, stage2, hole) {
    if (t >= this.#until) return;
    if (deed === "die") this.#endOfPlant.set(plant, "died");
    if (deed === "fail") this.#endOfPlant.set(plant, "failed");
    if (deed === "sow") this.#batchOfPlant[plant] = this.#batchOf(t, crop2);
    const action = ACTION_OF[deed];
    if (action === null) return;
    this.#write({
      line: 0,
      date: this.#dateOf(t),
      action,
      crop: this.#plan.crops[crop2].name,
      batch: this.#batchOfPlant[plant],
      stage: this.#plan.stages[stage2].name,
      channel: this.#channels ? this.#channelOf(stage2, hole) : null,
      count: 1,
      grams: action === "pick" ? this.#plan.crops[crop2].headG : null,
      note: deed === "discard" ? "discarded" : deed === "clear" ? this.#endOfPlant.get(plant) : null
    });
  }
  #write(row) {
    const channel = row.action === "sow" ? null : row.channel;
    const key = `${row.date}|${row.action}|${row.batch}|${channel}|${row.note}|${row.stage}`;
    const open = this.#rows.get(key);
    if (open === void 0) {
      this.#rows.set(key, row);
      return;
    }
    open.count++;
    if (open.channel !== row.channel) open.channel = null;
    if (open.grams !== null) open.grams += row.grams;
  }
  #dateOf(t) {
    if (t !== this.#visit) this.#date = isoOfDay(this.#plan.start, t);
    this.#visit = t;
    return this.#date;
  }
  /** One sowing of one crop: B1, B2 and so on. */
  #batchOf(t, crop2) {
    const key = `${t} ${crop2}`;
    let name2 = this.#batchNames.get(key);
    if (name2 === void 0) {
      name2 = `B${this.#batchNames.size + 1}`;
      this.#batchNames.set(key, name2);
    }
    return name2;
  }
  #channelOf(stage2, hole) {
    return String(
      Math.floor((hole - this.#firstHole[stage2]) / this.#plan.stages[stage2].holesPerChannel) + 1
    );
  }
};

// tests/season/ahead/calibration.test.ts
var SEASONS = 500;
var FUTURES = 9;
var WEEKS2 = 8;
var STOOD = 50;
function planOf(name2, change) {
  const { plan, scenario } = readExample(`${EXAMPLES}${name2}.yaml`, change);
  return { weeks: plan.weeks, plan: toPlan({ ...scenario, weeks: plan.weeks + WEEKS2 + 1 }) };
}
function planUntil(plan, day) {
  return { ...plan, weeks: Math.ceil(day / 7) + WEEKS2 };
}
function weeklyPicks(line, seed, season, from, opening) {
  const picks = new Array(WEEKS2).fill(0);
  const note2 = (t, deed) => {
    const week = Math.floor((t - from) / 7);
    if (deed === "pick" && t >= from && week < WEEKS2) picks[week]++;
  };
  line.run(seed, season, { onEvent: note2 }, opening);
  return picks;
}
function checkSeasons(plan, weeks, seasons, futures, kept = (rows) => rows) {
  const chance = stream(99, 0, ["calibration"]);
  const ranks = [];
  const beyond = { low: 0, atLow: 0, high: 0, atHigh: 0 };
  let told = 0;
  for (let season = 0; season < seasons; season++) {
    const day = Math.floor(1 + chance() * (7 * weeks - 1));
    const part = planUntil(plan, day);
    const line = new Line(part);
    const came = weeklyPicks(line, 100, season, day, null);
    const rows = kept(simulatedLog(part, 100, season, { until: day }), day);
    const reading = todayOf(rows, plan, isoOfDay(plan.start, day));
    if (!reading.ok) throw new Error(JSON.stringify(reading.faults));
    const openings = new InitialStates(reading.value, 555);
    const ahead = Array.from(
      { length: futures },
      (_, k) => weeklyPicks(line, 777 + season, k, day, openingOf(openings, k))
    );
    came.forEach((picks, week) => {
      const others = ahead.map((future) => future[week]);
      const less = others.filter((other) => other < picks).length;
      const equal = others.filter((other) => other === picks).length;
      ranks.push((less + chance() * (equal + 1)) / (futures + 1));
      const { p10, p90, low, high } = forecastOf(others);
      if (picks >= low && picks <= high) told++;
      if (picks < p10) beyond.low++;
      if (picks <= p10) beyond.atLow++;
      if (picks > p90) beyond.high++;
      if (picks >= p90) beyond.atHigh++;
    });
  }
  return { ranks, beyond, within: told / ranks.length };
}
function shareWithin2(ranks, low, high) {
  return ranks.filter((rank) => rank >= low && rank < high).length / ranks.length;
}
describe("ranks from 10 to 90 % are those of 78 to 82 % of the next weeks", () => {
  const shelf = planOf("home-shelf");
  test("on the built-in scenario; neither end is missed more often than the other", () => {
    const { ranks } = checkSeasons(shelf.plan, shelf.weeks, SEASONS, FUTURES);
    expect(ranks).toHaveLength(SEASONS * WEEKS2);
    const share2 = shareWithin2(ranks, 0.1, 0.9);
    expect(share2).toBeGreaterThanOrEqual(0.78);
    expect(share2).toBeLessThanOrEqual(0.82);
    for (const missed2 of [shareWithin2(ranks, 0, 0.1), shareWithin2(ranks, 0.9, 1)]) {
      expect(Math.abs(missed2 - 0.1)).toBeLessThan(0.018);
    }
  });
  test("each end of the range that is told, of whole numbers from 100 futures, is missed by a tenth at most and reached by a tenth at least", () => {
    const { ranks, beyond, within: within2 } = checkSeasons(shelf.plan, shelf.weeks, 100, 100);
    const checks = ranks.length;
    const error = 3 * Math.sqrt(0.1 * 0.9 / checks);
    for (const missed2 of [beyond.low, beyond.high]) expect(missed2 / checks).toBeLessThan(11 / 101 + error);
    for (const reached of [beyond.atLow, beyond.atHigh])
      expect(reached / checks).toBeGreaterThan(10 / 101 - error);
    expect(Math.abs(within2 - 0.8)).toBeLessThan(3 * Math.sqrt(0.8 * 0.2 / checks));
    for (const missed2 of [shareWithin2(ranks, 0, 0.1), shareWithin2(ranks, 0.9, 1)]) {
      expect(Math.abs(missed2 - 0.1)).toBeLessThan(error);
    }
  });
  test("where times vary much and holes are short, so that all depends on what is known of each plant", () => {
    const { plan, weeks } = planOf(
      "home-shelf",
      (text) => text.replace(/spread: 0\.\d+/g, "spread: 0.4").replace(/keeps: \d+/g, "keeps: 12").replace("seeds: 10", "seeds: 12")
    );
    const { ranks } = checkSeasons(plan, weeks, 200, FUTURES);
    expect(Math.abs(shareWithin2(ranks, 0.1, 0.9) - 0.8)).toBeLessThan(0.044);
  });
  test.each(["day", "span", "none"])(
    "where the log was begun ten days ago, and of what stood then is known since when: %s",
    (memory) => {
      const { ranks } = checkSeasons(
        shelf.plan,
        shelf.weeks,
        STOOD,
        FUTURES,
        (rows, day) => day < 50 ? rows : cutLog(rows, shelf.plan, day - 10, memory)
      );
      expect(Math.abs(shareWithin2(ranks, 0.1, 0.9) - 0.8)).toBeLessThan(0.06);
    }
  );
  test("where heads are wanted and plants are cut again", () => {
    const { plan, weeks } = planOf("kitchen-garden");
    const { ranks } = checkSeasons(plan, weeks, 80, FUTURES);
    expect(Math.abs(shareWithin2(ranks, 0.1, 0.9) - 0.8)).toBeLessThan(0.06);
  });
});

// _b.mts
await runAll();
