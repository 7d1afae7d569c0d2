/* SPDX-License-Identifier: MIT */
/*
 * Why a reading is not simply a code: one line a note. Private to mark/ but for the number in ds_reading.
 *
 * X(name, status that it brings, KEEPS or SILENT, "what is so", "what to ask, or empty")
 * SILENT: nothing in the text may be relied on; the reading is only shown.
 */
#ifndef DS_MARK_NOTES_H
#define DS_MARK_NOTES_H

#include "core/mark/read.h"

#define DS_NOTES(X)                                                                                          \
    X(NEMA_BESIDE, CODE, KEEPS, "The NEMA type beside the code is a remark; the IP code counts.", "")        \
    X(SPACED, NOTED, KEEPS, "A code has no spaces.", "")                                                     \
    X(CASE, NOTED, KEEPS, "A code is written in capitals.", "")                                              \
    X(HYPHEN, NOTED, KEEPS, "A code has no hyphen.", "")                                                     \
    X(POINTS, NOTED, KEEPS, "A code has no dots or colons.", "")                                             \
    X(TYPOGRAPHY, NOTED, KEEPS, "Typographic characters were read as plain ones.", "")                       \
    X(SHORTENED, NOTED, KEEPS, "A second code was shortened; each is written in full.", "")                  \
    X(JOINED, NOTED, KEEPS, "Read as one multiple code, which is written with slashes.", "")                 \
    X(JOINT, NOTED, KEEPS, "Read together, as codes of the same part in the same state.", "")                \
    X(TWICE, NOTED, KEEPS, "The same code stands twice.", "")                                                \
    X(REDUNDANT_LETTER, NOTED, KEEPS,                                                                        \
      "The numeral already says as much as the letter; the letter is dropped.", "")                          \
    X(ONE_LETTER, NOTED, KEEPS, "The letter stands at one of the codes only; it is taken for all of them.",  \
      "")                                                                                                    \
    X(ROAD_VEHICLE, NOTED, KEEPS, "K is of ISO 20653, for road vehicles; the test of IEC 60529 stays open.", \
      "")                                                                                                    \
    X(NINE_K, NOTED, KEEPS, "In full it is IP6K9K, and 9K covers neither jets nor immersion.", "")           \
    X(STATE, NOTED, KEEPS, "It holds in the state named only.", "")                                          \
    X(FACE, NOTED, KEEPS, "It belongs to one face; only the face exposed as mounted counts.", "")            \
    X(POSITION, NOTED, KEEPS, "It holds in the mounting position named only.", "")                           \
    X(KIT, NOTED, KEEPS, "It holds with the kit only, which must stand on the schedule.", "")                \
    X(ENTRIES, NOTED, KEEPS, "It holds only while the cable entries keep it.", "")                           \
    X(LOWER_PART, NOTED, KEEPS, "One part or state has less; the lower holds for the whole.", "")            \
    X(REQUIREMENT, NOTED, SILENT, "This is what somebody asks for, not what goods are marked with.", "")     \
    X(NEMA, NOTED, SILENT,                                                                                   \
      "A NEMA type is no proof of an IP code; the code shown is what it is at least taken for.", "")         \
    X(TEMPERATURE, NOTED, KEEPS, "The temperature beside the code is no part of it.", "")                    \
    X(DUST, NOTED, KEEPS, "The first numeral is dust, the second is water.", "")                             \
    X(BAR, NOTED, KEEPS, "A pressure was taken as 10 m of water for each bar.", "")                          \
    X(WORD_BESIDE, NOTED, KEEPS, "The words beside the code add nothing to it.", "")                         \
    X(OTHER_TYPE, NOTED, KEEPS, "The type number beside the code was not taken for a NEMA type.", "")        \
    X(IK_ONE_DIGIT, NOTED, KEEPS, "An IK code has two digits; confirm that this one is meant.", "")          \
    X(IK_NEW, NOTED, KEEPS, "IK11 came with the amendment of 2021; the edition of 2002 ends at IK10.", "")   \
    X(ANY_EIGHT, NOTED, KEEPS, "No depth and time is named, so any declared test harsher than 7 will do.",   \
      "")                                                                                                    \
    X(MANY_STATES, NOTED, KEEPS, "A condition in a need is left out: it is asked for in every state.", "")   \
    X(ALL_OF_THEM, NOTED, KEEPS, "All of the codes are asked for together.", "")                             \
    X(MISREAD, QUESTION, SILENT, "The I looks like another character, as in a bad scan.",                    \
      "Is this the code shown?")                                                                             \
    X(LETTER_O, QUESTION, SILENT, "A letter O stands where a digit belongs.", "Is it a zero?")               \
    X(SIGN_FOR_X, QUESTION, SILENT, "A sign stands where a digit or X belongs.", "Is it an X?")              \
    X(OLD_P, QUESTION, SILENT, "The I is missing, as in old marks.",                                         \
      "Is this the code shown, and of what year?")                                                           \
    X(OLD_W, QUESTION, SILENT, "Editions before 1989 had the W in this place.",                              \
      "Which edition is meant, and which weather conditions?")                                               \
    X(WEATHER, QUESTION, KEEPS, "W means weather conditions, which must be stated.",                         \
      "Which weather conditions?")                                                                           \
    X(HIGH_VOLTAGE, QUESTION, KEEPS, "H is for high-voltage apparatus.",                                     \
      "Does this code belong to these goods?")                                                               \
    X(LETTER_ORDER, QUESTION, KEEPS, "Supplementary letters stand once each, in alphabetical order.",        \
      "Which letters are meant?")                                                                            \
    X(UNKNOWN_LETTER, QUESTION, SILENT, "The last letter is none of IEC 60529.",                             \
      "What does the letter mean, and by which product standard?")                                           \
    X(RANGE, QUESTION, SILENT, "Two codes with a dash may be both, or a range of products.",                 \
      "Which codes does this product have?")                                                                 \
    X(THREE_NUMERALS, QUESTION, SILENT, "Three numerals may be two codes, an old impact digit or a slip.",   \
      "What is the code in full?")                                                                           \
    X(THIRD_DIGIT, QUESTION, SILENT, "A third digit is an old impact mark, of more than one scheme.",        \
      "What are the IP and the IK code by the present standards?")                                           \
    X(TWO_VARIANTS, QUESTION, KEEPS,                                                                         \
      "One of the codes covers the other, so they belong to two states, parts or variants; what both cover " \
      "counts.",                                                                                             \
      "Which code holds where, or when?")                                                                    \
    X(TWO_SOLIDS, QUESTION, KEEPS,                                                                           \
      "One enclosure in one state has one first numeral; what both codes cover counts.",                     \
      "Which code holds where, or when?")                                                                    \
    X(MIXED_CONDITIONS, QUESTION, SILENT, "It cannot be told which condition belongs to which code.",        \
      "Which code holds under which condition?")                                                             \
    X(EIGHT_BARE, QUESTION, KEEPS, "Test 8 has no depth and time of its own.",                               \
      "To what depth and for how long was it tested?")                                                       \
    X(EIGHT_NO_DEPTH, QUESTION, KEEPS, "Test 8 has no depth of its own.", "To what depth was it tested?")    \
    X(EIGHT_NO_TIME, QUESTION, KEEPS, "Test 8 has no time of its own.", "For how long was it tested?")       \
    X(EIGHT_MILD, QUESTION, KEEPS,                                                                           \
      "Test 8 must be harsher than test 7, which is 1 m for 30 min; this is not.",                           \
      "What depth and time were tested?")                                                                    \
    X(SEVEN_FIXED, QUESTION, KEEPS, "Test 7 is fixed at 1 m for 30 min; the text says otherwise.",           \
      "Is test 8 claimed, and to what depth and time?")                                                      \
    X(STRAY_IMMERSION, QUESTION, SILENT, "A depth or time stands at a code without an immersion test.",      \
      "What does the depth or time limit?")                                                                  \
    X(TWO_IMMERSIONS, QUESTION, KEEPS, "Two depths or times are named; the lower counts.",                   \
      "To what depth and for how long was it tested?")                                                       \
    X(SIX_K, QUESTION, KEEPS,                                                                                \
      "A water numeral with K belongs beside a first numeral with K; the water is open.",                    \
      "Is this a road-vehicle code, or a slip for another one?")                                             \
    X(UP_TO, QUESTION, SILENT, "\"Up to\" names the best variant only.",                                     \
      "Which code has the variant offered?")                                                                 \
    X(EXCLUDED, QUESTION, SILENT, "A part of the enclosure is left out.", "What code holds for the whole?")  \
    X(FOOTNOTE, QUESTION, SILENT, "The code has a footnote.", "What does the footnote say?")                 \
    X(PLUS, QUESTION, KEEPS, "A plus is no degree.", "What does the plus stand for?")                        \
    X(OLD_STANDARD, QUESTION, SILENT, "The standard named has been replaced.",                               \
      "What is the code by the present standard, and of which edition?")                                     \
    X(FOREIGN_GRADE, QUESTION, SILENT, "A Japanese grade is not the same as an IP code.",                    \
      "What is the IP code?")                                                                                \
    X(SYMBOL, QUESTION, SILENT,                                                                              \
      "The drops are an old symbol of luminaires; the code shown is what it stood for.",                     \
      "What is the code?")                                                                                   \
    X(TYPE_ALONE, QUESTION, SILENT, "A type number alone may be a NEMA type or something else.",             \
      "Whose type is it, and what is the IP code?")                                                          \
    X(TYPE_OPEN, QUESTION, SILENT, "No published IP code for this NEMA type was found.",                     \
      "What is the IP code?")                                                                                \
    X(JOULES, QUESTION, KEEPS, "An energy is not a code.", "What is the IK code?")                           \
    X(IK_CONFLICT, QUESTION, KEEPS, "The energy is not that of the IK code; the lower counts.",              \
      "Which of the two was tested?")                                                                        \
    X(TWO_IK, QUESTION, KEEPS, "There are two IK codes; the lower counts.", "Which holds for which part?")   \
    X(IK_NO_GRADE_BESIDE, QUESTION, KEEPS, "There is no such IK grade.", "What is the IK code?")             \
    X(ALTERNATIVES, QUESTION, SILENT,                                                                        \
      "Neither of the codes covers the other, so \"or\" cannot be decided here.",                            \
      "Which of them is asked for?")                                                                         \
    X(NOT_A_NEED, QUESTION, SILENT, "This cannot be asked for: no test of IEC 60529 stands for it.",         \
      "Which IEC 60529 code is wanted?")                                                                     \
    X(UNKNOWN_WORDS, QUESTION, SILENT, "Some of the words are not understood and may limit the code.",       \
      "What do the words beside the code mean?")                                                             \
    X(TOO_MUCH, QUESTION, SILENT, "There is more here than one mark.",                                       \
      "What is the mark of this one product?")                                                               \
    X(EMPTY, REFUSED, SILENT, "There is no text.", "")                                                       \
    X(NO_CODE, REFUSED, SILENT, "There is no code in this text.", "")                                        \
    X(WORD, REFUSED, SILENT, "A word is no degree of protection; ask for the code.", "")                     \
    X(OLD_WORD, REFUSED, SILENT,                                                                             \
      "A word is no degree of protection; ask for the code. On old luminaires drip-proof stood for IPX1, "   \
      "rainproof "                                                                                           \
      "IPX3, splashproof IPX4, jet-proof IPX5, watertight IPX7, dust-proof IP5X, dust-tight IP6X.",          \
      "")                                                                                                    \
    X(ONE_NUMERAL, REFUSED, SILENT, "One numeral is missing, and which one cannot be told.", "")             \
    X(NOTHING_STATED, REFUSED, SILENT, "Nothing is stated, so nothing is proven.", "")                       \
    X(FIRST_TOO_HIGH, REFUSED, SILENT, "The first numeral ends at 6.", "")                                   \
    X(NO_SUCH_K, REFUSED, SILENT,                                                                            \
      "There is no such K: only 5K and 6K come first, and 4K, 6K and 9K second.", "")                        \
    X(LETTER_PLACE, REFUSED, SILENT,                                                                         \
      "There is one additional letter at most, before the supplementary ones.", "")                          \
    X(RUNS_ON, REFUSED, SILENT, "Other characters run on from the code, as in a part number.", "")           \
    X(MEASURE, REFUSED, SILENT, "This is a measure, not a code.", "")                                        \
    X(ADDRESS, REFUSED, SILENT, "This is a network address.", "")                                            \
    X(IK_NO_GRADE, REFUSED, SILENT, "There is no such IK grade.", "")                                        \
    X(NEMA_HAZARD, REFUSED, SILENT, "NEMA types 7 to 10 are of explosive atmospheres and have no IP code.",  \
      "")                                                                                                    \
    X(NEMA_NONE, REFUSED, SILENT, "There is no such NEMA type.", "")                                         \
    X(TOO_LONG, REFUSED, SILENT, "The text is too long for a mark.", "")                                     \
    X(NOT_UTF8, REFUSED, SILENT, "The bytes are not UTF-8 text.", "")                                        \
    X(CONTROL, REFUSED, SILENT, "There are control characters in the text.", "")

typedef enum ds_note_id {
#define X(name, status, counts, is_so, ask) DS_NOTE_##name,
    DS_NOTES(X)
#undef X
        DS_NOTE_COUNT
} ds_note_id;

/*
 * Adds a note once and raises the status to its own. When the list is full the mildest note gives way to a
 * graver one. Returns false when nothing in the text may be relied on any more.
 */
bool ds_note_add(ds_reading *reading, ds_note_id note);

#endif
