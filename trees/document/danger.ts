/*
 * The word rules by which an act is held to touch what can hurt badly. Common practice, no source. They look at the words of
 * the act itself (a test's title, what it asks and its results; a remedy's finding, steps and parts; what a changeover says),
 * never at reasons, and rather ask for one caution too many than for one too few: an act that speaks of mains only
 * to stay away from it has all the more reason to say so in a caution.
 *
 * Mains. "mains", line voltage, a wall socket, the primary side, live conductors (wires, terminals, parts), the inside of an
 * adapter, and the mains' own voltages (110, 115, 120, 220, 230, 240 V, with or without AC), but not 1.230 V or 230 mV.
 *
 * Lithium cells. Lithium, Li-ion, LiPo, LiFePO4, LFP and their spellings; cell sizes that only lithium cells have (18650, 21700,
 * CR2032 …) where no unit follows the number; and a swollen or punctured cell, battery or pack of any kind.
 *
 * High voltage. Cold-cathode lamps, high voltage, and inverters, unless one is said to be a logic gate.
 *
 * Any cell, in a tree that says lithium anywhere at all: its plain "cell" or "battery" is then the lithium one, so a sentence in
 * which something is done to it (touched, plugged, measured, charged, heated …) is enough. In other trees LR6 and alkaline
 * cells are handled without more ado. Solar, load and photo cells and bits of memory are no batteries.
 */

const MAINS = anyOf(
  String.raw`\bmains\b`,
  String.raw`\bline[ -]voltages?\b`,
  String.raw`\bwall[ -](?:socket|outlet)s?\b`,
  String.raw`\bprimary[ -]side\b`,
  String.raw`\blive[ -](?:conductor|wire|terminal|part)s?\b`,
  String.raw`\b(?:inside|open|opens|opened)(?: up| of)? (?:the|an|its) adapt[eo]r\b`,
  String.raw`(?<![\d.,])(?:110|115|120|220|230|240)[ \u00a0\u202f-]?(?:V(?:[ -]?(?:AC|rms))?|volts?)\b`,
);

const LITHIUM = anyOf(
  String.raw`\blithium\b`,
  String.raw`\bli[ \u2010\u2011-]?(?:ion|po|poly|polymer)\b`,
  String.raw`\bLi-?FePO4\b`,
  String.raw`\bLFP\b`,
  String.raw`(?<![\d.,])(?:10180|10440|14430|14500|14650|16340|16650|17500|17650|17670|18350|18490|18500|18650|20700|21700|22650|26500|26650|32650|32700)(?:s|\b)(?![.,]\d|\s?(?:ohm|Ω|Hz|rpm|baud|[VA]\b)|\s+s\b)`,
  String.raw`\b[BC]R-?(?:1216|1220|1225|1616|1620|1632|2016|2025|2032|2320|2330|2354|2412|2430|2450|2477|123A)\b`,
);

const CELL = String.raw`(?<!\b(?:solar|load|photo|memory|bit)[ -])\b(?:cells?|batter(?:y|ies)|(?:cell|battery) packs?)\b`;
const HURT = String.raw`\b(?:swollen|swells?|swelling|puffed|bloated|bulg(?:es|ed|ing)|punctur(?:es?|ed|ing)|pierc(?:es?|ed|ing))\b`;

const HURT_CELL = anyOf(
  String.raw`${HURT}[^.;:!?\n]{0,40}${CELL}`,
  String.raw`${CELL}[^.;:!?\n]{0,40}${HURT}`,
);

const HIGH_VOLTAGE = anyOf(
  String.raw`\bcold[ -]cathode\b`,
  String.raw`\bccfls?\b`,
  String.raw`\bhigh[ -]voltages?\b`,
  String.raw`(?<!\b(?:logic|hex|clock|gate|signal|schmitt|bus)[ -])\binverters?\b`,
);

/** What is done to a cell with the hands, a probe, a charger or an iron; stems, with the endings that verbs take. */
const HANDLED = anyOf(
  String.raw`\b(?:touch|press|push|reach|attach|detach|flex)(?:es|ed|ing)?\b`,
  String.raw`\b(?:un)?plug(?:s|ged|ging)?\b`,
  String.raw`\b(?:dis|re)?connect(?:s|ed|ing)?\b`,
  String.raw`\b(?:measur|prob|(?:dis|re)?charg|replac|handl|remov|tap|chang|exchang|squeez|bridg)(?:es?|ed|ing)\b`,
  String.raw`\b(?:heat|warm|solder|desolder|clip|fit|lift|pull|insert|load|bend|short|test|probe|open)(?:s|t?ed|t?ing|ped|ping)?\b`,
  String.raw`\b(?:take|takes|taking|took|put|puts|putting|hold|holds|holding|cut|cuts|cutting)\b`,
);

const SENTENCE_ENDS = /[.;:!?]\s|\n/u;

/** What the words of an act say it touches, in words for a message. `isLithium` as told by {@link saysLithium} of the tree. */
export function dangersOf(texts: readonly string[], isLithium: boolean): readonly string[] {
  const said = (words: RegExp): boolean => texts.some((text) => words.test(text));
  const touchesCell = said(LITHIUM) || said(HURT_CELL) || (isLithium && texts.some(handlesCell));
  return [
    ...(said(MAINS) ? ['the mains'] : []),
    ...(touchesCell ? ['a lithium cell'] : []),
    ...(said(HIGH_VOLTAGE) ? ['high voltage'] : []),
  ];
}

/** Whether a document (or any part of one) names a lithium cell anywhere. */
export function saysLithium(part: unknown): boolean {
  if (typeof part === 'string') return LITHIUM.test(part);
  return typeof part === 'object' && part !== null && Object.values(part).some(saysLithium);
}

function handlesCell(text: string): boolean {
  return text.split(SENTENCE_ENDS).some((sentence) => PLAIN_CELL.test(sentence) && HANDLED.test(sentence));
}

const PLAIN_CELL = anyOf(CELL);

function anyOf(...patterns: readonly string[]): RegExp {
  return new RegExp(patterns.join('|'), 'iu');
}
