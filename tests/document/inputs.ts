// Inputs and files as types, read by the compiler alone: each is what its schema takes, no more and no less.

import type * as z from 'zod';
import type { FILES } from '../../src/corner/file-schemas.ts';
import type { KINDS } from '../../src/corner/kinds.ts';
import type { customCornerSchema } from '../../src/document/custom-schema.ts';
import type {
  CarFile,
  CarSizingFile,
  CoilSpringInput,
  CornerFile,
  CornerSizingFile,
  CustomPartsInput,
  DoubleWishboneFile,
  DoubleWishboneInput,
  LimitOptions,
  OrderedFile,
  PushrodFile,
  PushrodInput,
  StrutFile,
  StrutInput,
  SurveyInput,
} from '../../src/document/inputs.ts';
import type { limitOptionsSchema } from '../../src/document/limits-schema.ts';
import type { orderedSchema } from '../../src/document/ordered-schema.ts';
import type { carSizingShape, cornerSizingSchema, wireSchema } from '../../src/document/sizing-schema.ts';
import type { surveySchema } from '../../src/document/survey-schema.ts';

/** Types with nothing but their fields, all of them readonly, in whatever interfaces they were written. */
type Flat<T> = T extends object ? { readonly [Key in keyof T]: Flat<T[Key]> } : T;
/** Compiles where the two are one and the same type; that each takes the other is not enough. */
type Same<A, B> =
  (<T>() => T extends Flat<A> ? 1 : 2) extends <T>() => T extends Flat<B> ? 1 : 2 ? true : false;
function holds<_Statement extends true>(): void {}

type CarSchema = ReturnType<typeof FILES.anyCar>;
type CornerSchema = ReturnType<typeof FILES.anyCorner>;
type CornerFileSchemas = typeof FILES.corner;
type Kinds = typeof KINDS;

/** Inputs and files of each kind of corner: of all kinds, no more and no less. */
interface InputsOfKinds {
  readonly doubleWishbone: DoubleWishboneInput;
  readonly pushrod: PushrodInput;
  readonly strut: StrutInput;
}
interface FilesOfKinds {
  readonly doubleWishbone: DoubleWishboneFile;
  readonly pushrod: PushrodFile;
  readonly strut: StrutFile;
}

export function areTheirSchemas(): void {
  holds<Same<InputsOfKinds, { [Kind in keyof Kinds]: z.input<Kinds[Kind]['input']['schema']> }>>();
  holds<Same<FilesOfKinds, { [Kind in keyof Kinds]: z.input<CornerFileSchemas[Kind]> }>>();
  holds<Same<CustomPartsInput, Omit<z.input<typeof customCornerSchema>, 'drawing'>>>();
  holds<Same<LimitOptions, z.input<typeof limitOptionsSchema>>>();
  holds<Same<CoilSpringInput, z.input<typeof wireSchema>>>();
  holds<Same<CornerSizingFile, z.input<typeof cornerSizingSchema>>>();
  holds<Same<OrderedFile, z.input<typeof orderedSchema>>>();
  holds<Same<CornerFile, z.input<CornerSchema>>>();
  holds<Same<CarSizingFile, z.input<z.ZodObject<typeof carSizingShape>>>>();
  holds<Same<CarFile, z.input<CarSchema>>>();
  holds<Same<SurveyInput, z.input<typeof surveySchema>>>();
}

/** What is read is what was written: no schema changes its data. */
export function areWhatIsRead(): void {
  holds<Same<CarFile, z.output<CarSchema>>>();
  holds<Same<CornerFile, z.output<CornerSchema>>>();
  holds<Same<SurveyInput, z.output<typeof surveySchema>>>();
}

/** An object with one of its fields changed, in each way that must be seen. */
type Spoilt<T, Key extends keyof T> = {
  readonly missing: Omit<T, Key>;
  readonly extra: T & { readonly fieldThatIsNone: number };
  readonly required: Omit<T, Key> & { readonly [K in Key]-?: Exclude<T[K], undefined> };
  readonly optional: Omit<T, Key> & { readonly [K in Key]?: T[K] | undefined };
  readonly wider: Omit<T, Key> & { readonly [K in keyof Pick<T, Key>]: T[K] | symbol };
};

/** Changes that say the same: a required field made required, an optional one optional. */
type Unchanged<T, Key extends keyof T> = undefined extends T[Key] ? 'optional' : 'required';

/** What the comparison would not see in any object of a type, however deep: changes, by their fields. */
type Unseen<T> = T extends readonly (infer Item)[]
  ? Unseen<Item>
  : T extends object
    ? string extends keyof T
      ? Unseen<T[keyof T]>
      : {
          [Key in keyof T]-?:
            | {
                [Change in Exclude<keyof Spoilt<T, Key>, Unchanged<T, Key>>]: Same<
                  T,
                  Spoilt<T, Key>[Change]
                > extends true
                  ? [Change, Key]
                  : never;
              }[Exclude<keyof Spoilt<T, Key>, Unchanged<T, Key>>]
            | Unseen<Exclude<T[Key], undefined>>;
        }[keyof T]
    : never;

export function seesEveryChange(): void {
  holds<Same<Unseen<CarFile>, never>>();
  holds<Same<Unseen<CornerFile>, never>>();
  holds<Same<Unseen<SurveyInput>, never>>();
  holds<Same<Unseen<LimitOptions>, never>>();
  holds<Same<Unseen<CustomPartsInput>, never>>();
  // One by one, in an object within: what takes the other and is taken by it is told as well.
  type Coilover = DoubleWishboneInput['coilover'];
  type With<Other> = Omit<DoubleWishboneInput, 'coilover'> & { readonly coilover: Other };
  holds<Same<With<Coilover>, DoubleWishboneInput>>();
  // @ts-expect-error: a field is missing
  holds<Same<With<Omit<Coilover, 'chassisMount'>>, DoubleWishboneInput>>();
  // @ts-expect-error: a field more
  holds<Same<With<Coilover & { readonly colour?: string }>, DoubleWishboneInput>>();
  // @ts-expect-error: an optional field is required
  holds<Same<With<Coilover & { readonly foreAftOffset: number }>, DoubleWishboneInput>>();
  // @ts-expect-error: a field is of another type
  holds<Same<With<Omit<Coilover, 'on'> & { readonly on: string }>, DoubleWishboneInput>>();
}
