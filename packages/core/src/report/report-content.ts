import type { ScaleName } from './in-words.js';
import type { Warning } from '../errors/warning.js';
import type { Page } from '../page/page.js';
import type { Size } from '../units/parse-size.js';

/** A picture that the page holds. */
export interface ReportPicture {
  /** Of a JPEG, in base64. */
  readonly base64: string;
  /** Columns. */
  readonly width: number;
  /** Rows. */
  readonly height: number;
}

/** A picture, or why there is none. */
export type ReportView =
  | { readonly picture: ReportPicture; readonly why: null }
  | { readonly picture: null; readonly why: string };

/** What was found on a photo. */
export interface ReportFound {
  /** The photo, pixels. */
  readonly photo: Size<number>;
  /** Real millimetres to a pixel. */
  readonly mmPerPx: { readonly x: number; readonly y: number };
  /** Expanded (k = 2), in per cent. */
  readonly uncertaintyPercent: number;
  /** What that is made of: standard uncertainties (k = 1), largest first. */
  readonly budget: readonly { readonly source: string; readonly percent: number }[];
  /** 0 to 1. */
  readonly confidence: number;
  /** What was held against the picture, and where its size comes from. */
  readonly reference: { readonly name: string; readonly sizeMm: number; readonly source: string };
  /** How: `courses`, `span`… */
  readonly method: string;
  /** Bed joint to bed joint, in pixels, or null. */
  readonly coursePx: number | null;
  /** The bond, or null. */
  readonly bond: string | null;
  /** Whether it was straightened. */
  readonly isStraightened: boolean;
  /** What the photo shows of the real thing, mm. */
  readonly shows: Size<number>;
  /** Bed joints that were found, or null where none were looked for. */
  readonly beds: number | null;
  /** Places that the measurement leaves out. */
  readonly leftOut: number;
}

/** A surface brought to one scale and resolution. */
export interface ReportTiling {
  /** Of the model. */
  readonly scale: ScaleName;
  /** Dots to the inch. */
  readonly dpi: number;
  /** One repeat on paper, mm, or null where there is no picture of it. */
  readonly repeat: Size<number> | null;
  /** Three by three repeats. */
  readonly view: ReportView;
}

/** A photo as a surface. */
export interface ReportSurface {
  /** As the job calls it. */
  readonly name: string;
  /** The photo's path from the job. */
  readonly photo: string;
  /** Others of the same wall that it is joined with, from the job. */
  readonly joined: readonly string[];
  /** The photo with what was found drawn over it. */
  readonly view: ReportView;
  /** What was found, or null. */
  readonly found: ReportFound | null;
  /** At each scale and resolution. */
  readonly tilings: readonly ReportTiling[];
  /** Parts that use it. */
  readonly usedBy: readonly string[];
}

/** What became of a part or of sheets. */
export interface ReportStep {
  /** As the job calls it. */
  readonly name: string;
  /** Of the model. */
  readonly scale: ScaleName;
  /** Whether it was made now, was there, or is not. */
  readonly state: 'built' | 'kept' | 'failed';
  /** What kept it from being made; else null. */
  readonly why: string | null;
  /** Its files, from the job. */
  readonly files: readonly string[];
}

/** A part. */
export interface ReportPart extends ReportStep {
  /** What it is. */
  readonly kind: 'fill' | 'relief' | 'dress' | 'slim';
  /** Surfaces that it is made of. */
  readonly surfaces: readonly string[];
  /** On paper with its bleed, mm, or null where nobody knows. */
  readonly size: Size<number> | null;
  /** Extra picture on every side, mm. */
  readonly bleed: number;
  /** Whether its colours were made for a printer, and look wrong on a screen. */
  readonly isForPrinter: boolean;
  /** What its files look like, those that show it: the whole, and then each layer of card. */
  readonly views: readonly [ReportView, ...ReportView[]];
}

/** One of the pictures of the report's parts. */
export interface ReportPlace {
  /** The part, from 0. */
  readonly part: number;
  /** Which of its files, from 0. */
  readonly file: number;
}

/** Pages of parts. */
export interface ReportSheet extends ReportStep {
  /** The paper, mm, or null where there are none. */
  readonly paper: Size<number> | null;
  /** The same as its pages are laid out: larger where the printer makes them shorter, mm. */
  readonly room: Size<number> | null;
  /** What lies where. */
  readonly pages: readonly Page[];
  /** Which of the report's pictures each part of a page is; null for one that it does not show. */
  readonly parts: readonly (ReportPlace | null)[];
  /** What each of them is called. */
  readonly names: readonly string[];
}

/** The terms of a photo. */
export interface ReportTerms {
  /** Its path from the job. */
  readonly photo: string;
  /** As noted, or null. */
  readonly licence: string | null;
  /** As noted, or as the photo's file says where nothing is noted; or null. */
  readonly credit: string | null;
  /** Whether the photo's file alone says so. */
  readonly isOwnCredit: boolean;
  /** Parts that show it. */
  readonly usedBy: readonly string[];
}

/** What kept something from being made. */
export interface ReportFailure {
  /** One line. */
  readonly message: string;
  /** What would work, or null. */
  readonly hint: string | null;
  /** What is not there for it. */
  readonly lost: readonly string[];
}

/** All that a report tells. */
export interface ReportContent {
  /** The job file's name. */
  readonly job: string;
  /** What made it: `gaugerod 1.0.0`. */
  readonly program: string;
  /** Whether it is of some parts alone, as was asked. */
  readonly isSome: boolean;
  /** In the order of the file. */
  readonly surfaces: readonly ReportSurface[];
  /** Likewise. */
  readonly parts: readonly ReportPart[];
  /** Likewise. */
  readonly sheets: readonly ReportSheet[];
  /** What failed. */
  readonly failures: readonly ReportFailure[];
  /** What its user should know. */
  readonly warnings: readonly Warning[];
  /** Of every photo. */
  readonly terms: readonly ReportTerms[];
}
