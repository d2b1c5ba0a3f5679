/**
 * A column that grows at its end, in memory that threads share. Memory that is reserved and not written yet costs addresses alone.
 *
 * `array` is replaced when it grows: take it anew after each `extend`.
 */
class Growing<Numbers extends Float64Array | Uint8Array> {
  array: Numbers;
  length = 0;

  constructor(private readonly make: (length: number) => Numbers) {
    this.array = make(1024);
  }

  /** Makes room for so many in all. */
  reserve(length: number): void {
    if (length <= this.array.length) return;
    const larger = this.make(length);
    larger.set(this.array.subarray(0, this.length));
    this.array = larger;
  }

  /** Appends so many places, for the caller to fill. @returns the first of them [-] */
  extend(count: number): number {
    const first = this.length;
    this.length += count;
    if (this.length > this.array.length) this.reserve(2 * this.length);
    return first;
  }

  push(value: number): void {
    const at = this.extend(1);
    this.array[at] = value;
  }
}

export class GrowingDoubles extends Growing<Float64Array> {
  constructor() {
    super((length) => new Float64Array(new SharedArrayBuffer(Float64Array.BYTES_PER_ELEMENT * length)));
  }

  taken(): Float64Array {
    return this.array.subarray(0, this.length);
  }
}

export class GrowingBytes extends Growing<Uint8Array> {
  constructor() {
    super((length) => new Uint8Array(length));
  }

  taken(): Uint8Array {
    return this.array.subarray(0, this.length);
  }
}
