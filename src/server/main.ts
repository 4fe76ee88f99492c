/** The language server over standard input and output, for Node.js. */
import { join } from 'node:path';
import { startLanguageServer } from 'langium/lsp';
import { NodeFileSystem } from 'langium/node';
import { ProposedFeatures, createConnection } from 'vscode-languageserver/node';
import { Temporal } from 'temporal-polyfill';
import { layoutThread } from '../layout/thread';
import { createOrlopEditorServices } from '../language/lsp/services';
import { answerViews } from './requests';

const connection = createConnection(ProposedFeatures.all);
const { shared, boats } = createOrlopEditorServices({ connection, ...NodeFileSystem }, () => Temporal.Now.plainDateISO().toString());
answerViews(connection, shared, boats, layoutThread(join(__dirname, 'layout.cjs')));
// Files that are not open are judged too: a boat is all of its files.
shared.workspace.WorkspaceManager.initialBuildOptions = { validation: true };
startLanguageServer(shared);
