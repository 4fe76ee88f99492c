/**
 * Patterns that come with Orlop. Every figure in them is generic: common practice for a part of its size, marked `told` and
 * `about`, from no maker's book. Whoever uses one measures, and overrides.
 */
import { URI, type LangiumSharedCoreServices } from 'langium';

export const LIBRARY = URI.parse('orlop:/library/generic.orlop');

export const LIBRARY_TEXT = `-- Generic parts that come with Orlop. Every figure is common practice for a part of its size, from no maker's book:
-- measure your own, and say what differs where you use one.

pattern GenericPrimary "primary filter of middling size" is filter primary {
  told by "generic, no maker"
  separates water   passes 10 um   rated 60 L/h about   holds 450 mL about
  lid at 40 mm over ports about   drain at 180 mm under ports about   plugged
  bleed BS at 45 mm over ports
  seals lid ring, drain washer
  prefill allowed
}

pattern GenericFinal "engine-mounted final filter" is filter final {
  told by "generic, no maker"
  passes 5 um   rated 60 L/h about   holds 220 mL about
  bleed BS at 20 mm over ports
  seals lid ring
  prefill not on the clean side
}

pattern GenericPrimer "hand primer in the line" is primer {
  told by "generic, no maker"
  stroke 15 mL about   lifts 900 mm about   holds 20 mL about
}

pattern GenericLiftPump "diaphragm lift pump with a lever" is lift pump {
  told by "generic, no maker"
  lever 3 mL about   holds 25 mL about
}

pattern GenericElectricPrimer "electric primer" is electric primer {
  told by "generic, no maker"
  gives 30 L/h about   lifts 600 mm about   holds 40 mL about   momentary   when off passes
}

pattern QuarterTurn "quarter-turn full-bore shutoff" is shutoff {
  told by "generic, no maker"
  metal   normally open
}
`;

/** Puts the library into a workspace that does not load its documents itself. */
export async function addLibrary({ workspace }: LangiumSharedCoreServices): Promise<void> {
    const library = workspace.LangiumDocumentFactory.fromString(LIBRARY_TEXT, LIBRARY);
    workspace.LangiumDocuments.addDocument(library);
    await workspace.DocumentBuilder.build([library], { validation: false });
}
