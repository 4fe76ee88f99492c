/** From texts to a judgement, and from a boat to a bleed sequence, inside one process and warm. */
import { EmptyFileSystem, URI, type LangiumDocument, type LangiumSharedCoreServices } from 'langium';
import { viewOf } from '../../src/checks/check';
import { judgement, verdictsBy } from '../../src/checks/judge';
import { lowerBoat } from '../../src/language/lowering/boat';
import { textProblems } from '../../src/language/problems';
import { createOrlopServices } from '../../src/language/services';
import type { Boat } from '../../src/model/boat';
import { planBleed } from '../../src/procedures/bleed';
import { createPlainServices } from './plain';
import type { Row } from './table';

type Texts = Readonly<Record<string, string>>;
const WARM_UP = 10;

/** Both parse and link the same texts, turn about; ours goes on to the boat and judges it. */
export async function textToJudgement(name: string, texts: Texts, samples: number): Promise<Row[]> {
    const plainServices = createPlainServices(EmptyFileSystem);
    const { shared } = createOrlopServices(EmptyFileSystem);
    const plain: number[] = [];
    const linked: number[] = [];
    const judged: number[] = [];
    const weighed: number[] = [];
    for (let run = -WARM_UP; run < samples; run++) {
        const before = performance.now();
        await parseAndLink(plainServices, texts);
        const between = performance.now();
        const documents = await parseAndLink(shared, texts);
        const parsed = performance.now();
        const lowered = lowerBoat(documents);
        textProblems(documents, lowered.problems);
        const view = viewOf(lowered.boat);
        const quick = [...verdictsBy(view, 'quick')];
        judgement(lowered.boat, quick);
        const after = performance.now();
        // What an editor asks a moment after the last key.
        const slow = [...verdictsBy(view, 'slow')];
        judgement(lowered.boat, [...quick, ...slow]);
        const end = performance.now();
        if (run >= 0) { plain.push(between - before); linked.push(parsed - between); judged.push(after - between); weighed.push(end - after); }
        await forget(plainServices);
        await forget(shared);
    }
    return [
        { what: 'parse + link, plain', boat: name, samples: plain },
        { what: 'parse + link', boat: name, samples: linked, against: plain },
        { what: 'parse + link + lower + judge', boat: name, samples: judged, against: plain },
        { what: 'the slow rules, a moment later', boat: name, samples: weighed, against: plain },
    ];
}

async function parseAndLink(shared: LangiumSharedCoreServices, texts: Texts): Promise<LangiumDocument[]> {
    const { LangiumDocumentFactory, LangiumDocuments, DocumentBuilder } = shared.workspace;
    const documents = Object.entries(texts).map(([path, text]) => LangiumDocumentFactory.fromString(text, URI.file(path)));
    for (const document of documents) LangiumDocuments.addDocument(document);
    await DocumentBuilder.build(documents, { validation: false });
    return documents;
}

async function forget(shared: LangiumSharedCoreServices): Promise<void> {
    await shared.workspace.DocumentBuilder.update([], shared.workspace.LangiumDocuments.all.map((document) => document.uri).toArray());
}

export function bleedPlans(name: string, boat: Boat, engine: string, opened: readonly string[], samples: number): Row {
    const times: number[] = [];
    for (let run = -WARM_UP; run < samples; run++) {
        const before = performance.now();
        const plan = planBleed(boat, { engine, opened });
        if (run >= 0) times.push(performance.now() - before);
        if ('refused' in plan) throw new Error(plan.refused);
    }
    return { what: `bleed sequence of ${engine} after opening ${opened.join(' and ')}`, boat: name, samples: times };
}
