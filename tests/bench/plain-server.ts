/** The plain language server, bundled as ours is. */
import { startLanguageServer } from 'langium/lsp';
import { NodeFileSystem } from 'langium/node';
import { ProposedFeatures, createConnection } from 'vscode-languageserver/node';
import { createPlainServices } from './plain';

const shared = createPlainServices({ connection: createConnection(ProposedFeatures.all), ...NodeFileSystem });
shared.workspace.WorkspaceManager.initialBuildOptions = { validation: true };
startLanguageServer(shared);
