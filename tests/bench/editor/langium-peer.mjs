/** A language server of Langium's example of entities, with nothing added: what a framework gives for a small language. */
import { createServicesForGrammar } from 'langium/grammar';
import { startLanguageServer } from 'langium/lsp';
import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';

const grammar = `
grammar DomainModel
entry Domainmodel: (elements+=AbstractElement)*;
AbstractElement: DataType | Entity;
DataType: 'datatype' name=ID;
Entity: 'entity' name=ID ('extends' superType=[Entity:ID])? '{' (features+=Feature)* '}';
Feature: (many?='many')? name=ID ':' type=[AbstractElement:ID];
hidden terminal WS: /\\s+/;
terminal ID: /[_a-zA-Z][\\w_]*/;
hidden terminal SL_COMMENT: /\\/\\/[^\\n\\r]*/;
`;

const connection = createConnection(ProposedFeatures.all);
const services = await createServicesForGrammar({
  grammar,
  languageMetaData: {
    languageId: 'domain-model',
    fileExtensions: ['.dmodel'],
    caseInsensitive: false,
    mode: 'production',
  },
  sharedModule: { lsp: { Connection: () => connection } },
});
startLanguageServer(services.shared);
