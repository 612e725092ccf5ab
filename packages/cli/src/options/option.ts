import type { Settings } from '@gaugerod/core';

/** The library, loaded only once a command really runs: `--help` must not pay for it. */
export type Core = typeof import('@gaugerod/core/jobs');

/**
 * Every option given, by the name its value goes under: the text as typed, or all of them where it
 * may be given several times, or true for a switch.
 */
export type Texts = Readonly<Record<string, string | readonly string[] | true | undefined>>;

/** What a parser may lean on beside its own text. */
export interface Reading {
  /** The option as the user knows it: `--dpi`. */
  readonly name: string;
  /** The library, whose grammar of lengths, sizes and names is the only one. */
  readonly core: Core;
  /** Every option given, for those that lean on one another. */
  readonly texts: Texts;
  /** What is set for all commands. */
  readonly settings: Settings;
}

/** An option that takes a text. */
export interface TextOption<Value> {
  /** As the help shows it: `--dpi <number>`. */
  readonly flag: string;
  /** What it does, a few words. */
  readonly help: string;
  /** Text to value; throws a RangeError, with the option's name in it, for what cannot be meant. */
  readonly parse: (text: string, reading: Reading) => Value;
  /** Where what can be given is listed. */
  readonly hint?: string;
  /** The command makes no sense without it. */
  readonly required?: true;
}

/** An option that may be given several times, each time with a text. */
export interface ListOption<Value> extends TextOption<Value> {
  /** Tells it from one that is given once. */
  readonly many: true;
}

/** An option that is there or not. */
export interface Switch {
  /** As the help shows it: `--save`. */
  readonly flag: string;
  /** What it does, a few words. */
  readonly help: string;
}

/** One option of a command. */
export type Option = TextOption<unknown> | Switch;

/**
 * A command's options by the name their values go under: `realSize` for `--real-size`,
 * `spans` for a `--span` that may be given several times.
 */
export type Options = Readonly<Record<string, Option>>;

// What one option comes to.
type Value<Spec extends Option> =
  Spec extends ListOption<infer Parsed>
    ? readonly Parsed[]
    : Spec extends TextOption<infer Parsed>
      ? Parsed
      : true;

/** What a command's options come to, once read: absent where the user gave none. */
export type Values<Given extends Options> = {
  readonly [
    Name in keyof Given as Given[Name] extends { readonly required: true } ? Name : never
  ]: Value<Given[Name]>;
} & {
  readonly [
    Name in keyof Given as Given[Name] extends { readonly required: true } ? never : Name
  ]?: Value<Given[Name]>;
};
