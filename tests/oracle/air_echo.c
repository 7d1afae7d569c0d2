/* SPDX-License-Identifier: MIT */
/*
 * No test but a helper of one: our moist air, for tests/oracle/air_oracle.mjs.
 *
 *     in:  TEMP_C HUMIDITY PRESSURE_PA \n    as often as wanted
 *     out: SATURATION_PA VAPOUR_PA DEW_C MIXING HUMIDITY KG_M3 \n    humidity from the vapour pressure again; nan where
 *                                                                    there is no answer
 */
#include "core/box/air.h"

#include <stdio.h>

int main(void)
{
    double temp_c;
    double humidity;
    double pressure_pa;
    while (scanf("%lf %lf %lf", &temp_c, &humidity, &pressure_pa) == 3) {
        const double vapour_pa = ds_air_vapour_pa(temp_c, humidity);
        printf("%.17g %.17g %.17g %.17g %.17g %.17g\n", ds_air_saturation_pa(temp_c), vapour_pa,
               ds_air_dew_point_c(vapour_pa), ds_air_mixing_ratio(vapour_pa, pressure_pa),
               ds_air_humidity(temp_c, vapour_pa), ds_air_vapour_kg_m3(temp_c, vapour_pa));
    }
    return feof(stdin) ? 0 : 2;
}
