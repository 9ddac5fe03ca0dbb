// One class for each error code of the C API.

export class SiropError extends Error {
    static code = -1;

    /** @param {string} message @param {number} code the C API's status, below 0 */
    constructor(message, code = new.target.code) {
        super(message);
        this.name = new.target.name;
        this.code = code;
    }
}

export class GeneralError extends SiropError {}

/** A class that has nothing of its own but its name and code. */
function ofCode(name, code) {
    return {[name]: class extends SiropError { static code = code; }}[name];
}

export const OutOfRangeError = ofCode("OutOfRangeError", -2);
export const UnknownNameError = ofCode("UnknownNameError", -3);
export const BufferTooSmallError = ofCode("BufferTooSmallError", -4);
export const MissingArgumentError = ofCode("MissingArgumentError", -6);
export const OutOfMemoryError = ofCode("OutOfMemoryError", -7);
export const ImpossibleError = ofCode("ImpossibleError", -8);

/** The batch or the question is refused; `place` says which of its keys, `reason` why. */
export class BatchRefusedError extends SiropError {
    static code = -5;

    constructor(message) {
        super(message);
        const cut = message.indexOf(": ");
        this.place = message.slice(0, Math.max(cut, 0));
        this.reason = cut < 0 ? message : message.slice(cut + 2);
    }
}

const byCode = new Map([OutOfRangeError, UnknownNameError, BufferTooSmallError, BatchRefusedError,
    MissingArgumentError, OutOfMemoryError, ImpossibleError].map((one) => [one.code, one]));

/** The error of a code; one that is not known is a general failure and keeps its code. */
export function errorOf(code, message) {
    return new (byCode.get(code) ?? GeneralError)(message, code);
}
