import { z } from 'zod';

/** Takes of a value what follows a schema, part by part, and notes where something else stands in. */
export class SoundParts {
  private readonly stoodIn: string[] = [];

  /**
   * The value where it follows its schema, else what stands in for it.
   *
   * @param schema what the value must be
   * @param value whatever was read
   * @param path where it stands (`tariffs[1].name`)
   * @param standIn what is taken where it does not follow its schema
   */
  take<Schema extends z.ZodType, Other>(
    schema: Schema,
    value: unknown,
    path: string,
    standIn: Other,
  ): z.output<Schema> | Other {
    const result = schema.safeParse(value);
    if (result.success) return result.data;
    this.stoodIn.push(path);
    return standIn;
  }

  /**
   * The parts of a group by their schemas. A name that is none of its own is passed over.
   *
   * @param schema the group's
   * @param value whatever was read
   * @param path where it stands
   * @param standIns what is taken for parts that do not follow their schemas; optional ones are left out
   */
  takeGroup<Group extends z.ZodObject>(
    schema: Group,
    value: unknown,
    path: string,
    standIns: z.output<Group>,
  ): z.output<Group> {
    const group = this.entriesOf(value, path);
    const others: Readonly<Record<string, unknown>> = standIns;
    const sound = Object.entries(schema.shape).map(([key, part]) => [
      key,
      this.take(part as z.ZodType, group[key], `${path}.${key}`, others[key]),
    ]);
    return Object.fromEntries(sound) as z.output<Group>;
  }

  /** The entries of a group; none where it is no group. */
  entriesOf(value: unknown, path: string): Readonly<Record<string, unknown>> {
    return this.take(z.record(z.string(), z.unknown()), value, path, {});
  }

  /** What a list holds, at most so many; nothing where it is no list. */
  listOf(value: unknown, path: string, most = Infinity): readonly unknown[] {
    return this.take(z.array(z.unknown()), value, path, []).slice(0, most);
  }

  /** Where something else stands in, in the order in which it was found. */
  get paths(): readonly string[] {
    return this.stoodIn;
  }
}
