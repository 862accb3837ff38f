// @ts-check
// A plugin of TypeDoc: a public member that holds numbers must say what they are, and so their unit, zero and sign, unless
// its interface names the unit of all. What speaks for itself (a kind, a sentence, a list of parts) needs no words.
import { Application, ReflectionKind } from 'typedoc';

const UNIT = /\b(mm|kg|N|degrees|radians|units?|share|probability)\b/;
const NUMBERS = new Set(['number', 'Float64Array', 'Point', 'Numbers']);

/** @param {import('typedoc').SomeType | undefined} type */
function isNumeric(type) {
  if (type === undefined) return false;
  let found = false;
  /** @param {import('typedoc').SomeType} inner */
  const look = (inner) => {
    switch (inner.type) {
      case 'intrinsic':
      case 'reference':
        found ||= NUMBERS.has(inner.name);
        if (inner.type === 'reference') inner.typeArguments?.forEach(look);
        break;
      case 'array':
        look(inner.elementType);
        break;
      case 'union':
        inner.types.forEach(look);
        break;
      case 'tuple':
        inner.elements.forEach(look);
        break;
      case 'namedTupleMember':
        look(inner.element);
        break;
      case 'typeOperator':
        look(inner.target);
        break;
    }
  };
  look(type);
  return found;
}

/** @param {Application} app */
export function load(app) {
  app.on(Application.EVENT_VALIDATE_PROJECT, (project) => {
    for (const member of project.getReflectionsByKind(ReflectionKind.Property)) {
      // A member of an object written within another member is told with that.
      const owner = member.parent;
      if (!owner?.kindOf(ReflectionKind.ClassOrInterface)) continue;
      if (member.hasComment() || !member.isDeclaration() || !isNumeric(member.type)) continue;
      if (owner.comment?.summary.some(({ text }) => UNIT.test(text))) continue;
      app.logger.validationWarning(
        /** @type {never} */ (`${member.getFullName()} holds numbers, and does not say which`),
      );
    }
  });
}
