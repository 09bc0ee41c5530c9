/** Finds code that calls a text printable without having it escaped. */
import ts from 'typescript';

/** The one module that may. */
const MAKES_PRINTABLE = 'src/render/printable.ts';

/** What is wrong with a node, where it makes the compiler believe that something holds printable text. */
export function forgesOutput(
  node: ts.Node,
  file: string,
  checker: ts.TypeChecker,
): string | undefined {
  if (file === MAKES_PRINTABLE) return undefined;
  const claimed = claimedBy(node);
  if (!claimed || !holdsPrintable(checker.getTypeFromTypeNode(claimed), checker, new Set()))
    return undefined;
  return `calls a text printable by ${node.getText().slice(0, 60)}`;
}

function claimedBy(node: ts.Node): ts.TypeNode | undefined {
  if (ts.isAsExpression(node) || ts.isTypeAssertionExpression(node)) return node.type;
  return ts.isTypePredicateNode(node) ? node.type : undefined;
}

/** Whether it is printable text, or has some in it or gives some back. */
function holdsPrintable(type: ts.Type, checker: ts.TypeChecker, seen: Set<ts.Type>): boolean {
  if (seen.has(type)) return false;
  seen.add(type);
  if (type.aliasSymbol?.name === 'Printable') return true;
  const inner = type.isUnionOrIntersection() ? type.types : [];
  const properties = type.isUnionOrIntersection() ? [] : ownProperties(type);
  const values = properties.map((property) => checker.getTypeOfSymbol(property));
  const given = type.getCallSignatures().map((signature) => signature.getReturnType());
  const listed = checker.getIndexInfosOfType(type).map((info) => info.type);
  return [...inner, ...values, ...given, ...listed, ...argumentsOf(type, checker)].some((each) =>
    holdsPrintable(each, checker, seen),
  );
}

/** Of what is declared here; what the language and its libraries have holds nothing of ours. */
function ownProperties(type: ts.Type): ts.Symbol[] {
  return type
    .getProperties()
    .filter((property) =>
      property.declarations?.some(
        (each) => !each.getSourceFile().fileName.includes('node_modules'),
      ),
    );
}

function argumentsOf(type: ts.Type, checker: ts.TypeChecker): readonly ts.Type[] {
  const isReference = ((type as ts.ObjectType).objectFlags & ts.ObjectFlags.Reference) !== 0;
  return isReference ? checker.getTypeArguments(type as ts.TypeReference) : [];
}
