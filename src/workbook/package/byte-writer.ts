/** Collects bytes: runs of another buffer, and short texts. */
export class ByteWriter {
  private bytes: Buffer;
  private length = 0;

  /** @param capacity bytes that are expected; more are taken as they come */
  constructor(capacity: number) {
    this.bytes = Buffer.allocUnsafeSlow(Math.max(64, capacity));
  }

  /** Appends `source[start, end)`. */
  copy(source: Buffer, start: number, end: number): void {
    const count = end - start;
    if (count <= 0) return;
    this.reserve(count);
    if (count < 48) {
      const target = this.bytes;
      let to = this.length;
      for (let from = start; from < end; from++) target[to++] = source[from] as number;
    } else {
      source.copy(this.bytes, this.length, start, end);
    }
    this.length += count;
  }

  /** Appends text that has ASCII characters only. */
  ascii(text: string): void {
    const count = text.length;
    this.reserve(count);
    const target = this.bytes;
    let to = this.length;
    for (let index = 0; index < count; index++) target[to++] = text.charCodeAt(index);
    this.length = to;
  }

  /** Appends any text as UTF-8. */
  text(text: string): void {
    this.reserve(text.length * 3);
    this.length += this.bytes.write(text, this.length, 'utf8');
  }

  /** The bytes so far; a view, not a copy. */
  toBuffer(): Buffer {
    return this.bytes.subarray(0, this.length);
  }

  private reserve(count: number): void {
    if (this.length + count <= this.bytes.length) return;
    const wider = Buffer.allocUnsafeSlow(Math.ceil((this.length + count) * 1.4));
    this.bytes.copy(wider, 0, 0, this.length);
    this.bytes = wider;
  }
}
