/* SPDX-License-Identifier: MIT */
/*
 * IK grades and joules (IEC 62262). The grades are taken as ordered by energy, which is common practice: no
 * sentence "implies the lower ones" was read, and the striking piece changes from grade to grade.
 */
#include "core/mark/mark.h"

static const double JOULES[] = {0, 0.14, 0.2, 0.35, 0.5, 0.7, 1, 2, 5, 10, 20, 50};

enum { GRADES = sizeof JOULES / sizeof *JOULES };

/* A need computed by arithmetic may miss a grade's energy by its last digit. */
#define SAME 1e-9

unsigned ds_impact_grade(const double joules)
{
    for (unsigned grade = 0; grade < GRADES; grade++) {
        if (joules <= JOULES[grade] + SAME) {
            return grade;
        }
    }
    return DS_IMPACT_BEYOND;
}

unsigned ds_impact_grade_within(const double joules)
{
    unsigned grade = 0;
    while (grade + 1 < GRADES && joules >= JOULES[grade + 1] - SAME) {
        grade++;
    }
    return grade;
}

double ds_impact_joules(const unsigned grade)
{
    return JOULES[grade < GRADES ? grade : GRADES - 1];
}
