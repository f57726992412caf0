/**
 * Events in order of time, first in first out among equal times.
 *
 * An event is an integer id with a time; each id has at most one pending event, so the id itself is the place
 * where the event is kept and nothing is allocated. Ids mean nothing here.
 *
 * Method: time is cut into buckets of equal width. An event is put into its bucket in O(1); a bucket is sorted when
 * the clock reaches it. With the bucket count near the number of events an event costs O(1) whatever their number.
 * What is scheduled into the bucket that is being emptied (or before it) goes through a small binary heap, so that
 * the worst case stays O(log n).
 */

import { Columns } from './columns.js';
import { sortStably } from './stable-sort.js';

/** Largest number of buckets: 4 MB of heads. */
const MOST_BUCKETS = 1 << 20;
/**
 * Most buckets for each id, as no more events than ids are pending at once. What more there were would stand empty, and of many
 * lines at once it would take more room than all else.
 */
const BUCKETS_PER_ID = 16;

export class EventQueue {
  /** Time of the event that `next` returned last; 0 before the first. */
  now = 0;

  readonly #horizon: number;
  readonly #perTime: number;
  readonly #time: Float64Array;
  /** Next id in the same bucket, -1 at its end; -2 for an id that is not pending. */
  readonly #link: Int32Array;
  /** Latest id put into each bucket, -1 if none. */
  readonly #heads: Int32Array;

  /** The bucket that is being emptied, its ids in order and how far we are. */
  #bucket = -1;
  readonly #order: Int32Array;
  #at = 0;
  #end = 0;

  /** Binary heap of what came into the open bucket late: ids, and the number of its arrival for ties. Empty while a bucket is sorted. */
  readonly #lateId: Int32Array;
  readonly #lateSeq: Uint32Array;
  #lateSize = 0;
  #lateCount = 0;
  /** Events in buckets that are not open yet. */
  #waiting = 0;

  /**
   * @param ids number of ids: events are 0 .. ids - 1
   * @param horizon end of time; what would happen at or after it does not happen
   * @param expected about how many events there will be in all (only speed depends on it)
   * @param columns memory for its use
   * @throws RangeError if a number is not as described
   */
  constructor(ids: number, horizon: number, expected: number, columns = new Columns()) {
    if (!(Number.isInteger(ids) && ids >= 1))
      throw new RangeError(`ids must be a whole number above 0: ${ids}`);
    if (!(horizon > 0 && horizon < Infinity))
      throw new RangeError(`horizon must be finite and above 0: ${horizon}`);
    if (!(expected >= 0)) throw new RangeError(`expected must be 0 or more: ${expected}`);
    const most = Math.min(MOST_BUCKETS, BUCKETS_PER_ID * ids);
    const buckets = Math.max(64, Math.min(most, Math.ceil(expected / 4)));
    this.#horizon = horizon;
    this.#perTime = buckets / horizon;
    this.#time = columns.make(Float64Array, ids);
    this.#link = columns.make(Int32Array, ids);
    // One spare bucket: rounding may put a time just below the horizon into bucket number `buckets`.
    this.#heads = columns.make(Int32Array, buckets + 1);
    this.#order = columns.make(Int32Array, ids);
    this.#lateId = columns.make(Int32Array, ids);
    this.#lateSeq = columns.make(Uint32Array, ids);
    this.reset();
  }

  /** Forget all events and set the clock back to 0. */
  reset(): void {
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
  schedule(id: number, time: number): boolean {
    if (!(time >= this.now)) throw new RangeError(`event ${id} at ${time}: it is ${this.now} already`);
    if (this.#link[id] !== -2) throw new RangeError(`event ${id} is pending already`);
    this.#time[id] = time;
    if (time >= this.#horizon) return false;
    const bucket = (time * this.#perTime) | 0;
    if (bucket > this.#bucket) {
      this.#link[id] = this.#heads[bucket]!;
      this.#heads[bucket] = id;
      this.#waiting++;
    } else {
      this.#link[id] = -1;
      this.#pushLate(id);
    }
    return true;
  }

  /** The time for which an event was scheduled last, also one at or after the horizon; means nothing if that was in an earlier season. */
  timeOf(id: number): number {
    return this.#time[id]!;
  }

  /** Take the next event and set the clock to its time. @returns its id, or -1 if nothing is pending */
  next(): number {
    while (this.#at === this.#end && this.#lateSize === 0) {
      if (this.#waiting === 0) return -1;
      this.#open();
    }
    let id: number;
    if (this.#at === this.#end) id = this.#popLate();
    else {
      id = this.#order[this.#at]!;
      // Among equal times the sorted ones came first: they were scheduled before the bucket was opened.
      if (this.#lateSize > 0 && this.#time[this.#lateId[0]!]! < this.#time[id]!) id = this.#popLate();
      else this.#at++;
    }
    this.now = this.#time[id]!;
    this.#link[id] = -2;
    return id;
  }

  /** Is another event pending at exactly the present time? */
  hasMoreNow(): boolean {
    // Equal times fall into one bucket, and that bucket is open.
    return (
      (this.#at < this.#end && this.#time[this.#order[this.#at]!] === this.now) ||
      (this.#lateSize > 0 && this.#time[this.#lateId[0]!] === this.now)
    );
  }

  /** Open the next bucket that holds anything and sort it. */
  #open(): void {
    let bucket = this.#bucket + 1;
    while (this.#heads[bucket]! < 0) bucket++;
    this.#bucket = bucket;
    const order = this.#order;
    let n = 0;
    for (let id = this.#heads[bucket]!; id >= 0; id = this.#link[id]!) order[n++] = id;
    this.#waiting -= n;
    // The chain runs from the latest to the first; turn it round, so that a stable sort keeps the order of arrival.
    for (let i = 0, j = n - 1; i < j; i++, j--) {
      const swap = order[i]!;
      order[i] = order[j]!;
      order[j] = swap;
    }
    sortStably(order, this.#lateId, this.#time, n);
    this.#at = 0;
    this.#end = n;
  }

  #pushLate(id: number): void {
    const ids = this.#lateId;
    const seqs = this.#lateSeq;
    const times = this.#time;
    const time = times[id]!;
    // Numbers tell apart what is in the heap at the same time.
    if (this.#lateSize === 0) this.#lateCount = 0;
    let i = this.#lateSize++;
    while (i > 0) {
      const parent = (i - 1) >> 1;
      // A later arrival never passes an equal time.
      if (times[ids[parent]!]! <= time) break;
      ids[i] = ids[parent]!;
      seqs[i] = seqs[parent]!;
      i = parent;
    }
    ids[i] = id;
    seqs[i] = this.#lateCount++;
  }

  #popLate(): number {
    const ids = this.#lateId;
    const seqs = this.#lateSeq;
    const times = this.#time;
    const top = ids[0]!;
    const size = --this.#lateSize;
    const id = ids[size]!;
    const seq = seqs[size]!;
    const time = times[id]!;
    let i = 0;
    for (;;) {
      let child = 2 * i + 1;
      if (child >= size) break;
      const right = child + 1;
      if (right < size && before(times, ids, seqs, right, child)) child = right;
      const childTime = times[ids[child]!]!;
      if (time < childTime || (time === childTime && seq < seqs[child]!)) break;
      ids[i] = ids[child]!;
      seqs[i] = seqs[child]!;
      i = child;
    }
    ids[i] = id;
    seqs[i] = seq;
    return top;
  }
}

/** Does heap place `a` come before heap place `b`? */
function before(times: Float64Array, ids: Int32Array, seqs: Uint32Array, a: number, b: number): boolean {
  const ta = times[ids[a]!]!;
  const tb = times[ids[b]!]!;
  return ta < tb || (ta === tb && seqs[a]! < seqs[b]!);
}
