// The rows of the components: complete, and what a row says is what the model does.
#include <gtest/gtest.h>

#include <cmath>
#include <string>

#include "sirop/cooking/advice.hpp"
#include "sirop/data/stages.hpp"
#include "sirop/solution/properties.hpp"

namespace {

using namespace sirop::core;

TEST(components, each_row_has_what_its_phase_needs) {
    for (const auto& c : components) {
        SCOPED_TRACE(std::string(c.name));
        EXPECT_GT(c.heat.a0, 0.0);
        EXPECT_FALSE(c.glass_source.empty());
        EXPECT_EQ(c.where == phase::dissolved, c.particle_molar_mass > 0.0);
        EXPECT_EQ(c.where == phase::suspended || c.where == phase::fat || c.where == phase::spirit,
                  c.density.at_zero > 0.0);
        EXPECT_EQ(c.where == phase::fat, c.solid_fat != nullptr);
        const bool holds = c.where == phase::dissolved || c.where == phase::suspended || c.where == phase::spirit;
        EXPECT_EQ(holds, c.isotherm.kind != isotherm_kind::none);
        EXPECT_EQ(holds && c.isotherm.kind != isotherm_kind::chain, c.trust.line != nullptr);
        EXPECT_EQ(std::isfinite(c.glass_constant),
                  c.where == phase::solvent || c.where == phase::spirit ||
                      (c.where == phase::dissolved && c.isotherm.kind != isotherm_kind::electrolyte));
    }
}

// A sugar alcohol holds water by its molecules, so gram for gram in proportion to one over its molar mass.
TEST(components, sugar_alcohols_hold_water_as_sorbitol_by_the_molecule) {
    for (const auto id : {component::isomalt, component::maltitol})
        for (const double ln_aw : {-0.02, -0.3, -1.5})
            for (const double kelvin : {293.15, 390.0})
                EXPECT_NEAR(water_held(data_of(id), ln_aw, kelvin) * 344.313 /
                                (water_held(data_of(component::sorbitol), ln_aw, kelvin) * sorbitol_molar_mass),
                            1.0, 1.0e-12);
    // Dry and wet edges further apart than those of sorbitol.
    const auto width = [](component id) {
        const auto& c = data_of(id);
        return water_held(c, -0.3, 293.15, curve::high) / water_held(c, -0.3, 293.15, curve::low);
    };
    EXPECT_GT(width(component::isomalt), 1.1 * width(component::sorbitol));
}

/// Notes of 45 % of water, a share of something and the rest sugar, cooked.
std::vector<std::string> notes_with(component id, double share = 0.05, double celsius = 110.0) {
    batch b;
    masses m{};
    m[index_of(component::water)] = 0.45;
    m[index_of(component::sucrose)] = 0.55 - share;
    m[index_of(id)] += share;
    b.pan = {{"a mixture", m, 100.0}};
    b.thermometer_celsius = celsius;
    const auto answer = predict_with_advice(b, *find_stage_table("us 2004"));
    EXPECT_TRUE(answer) << answer.why.reason;
    return answer ? answer->notes : std::vector<std::string>();
}
bool any_has(const std::vector<std::string>& notes, std::string_view part) {
    for (const auto& note : notes)
        if (note.find(part) != std::string::npos) return true;
    return false;
}

// The reason that is given is that of the component: gelatin is no salt, and nothing is blamed on what is not
// there.
TEST(components, a_note_blames_what_is_there) {
    for (const auto& c : components) {
        if (c.isotherm.kind != isotherm_kind::solid) continue;
        const auto notes = notes_with(c.id);
        EXPECT_TRUE(any_has(notes, "gelling agents: how much water they hold")) << c.name;
        EXPECT_FALSE(any_has(notes, "salt, minerals or a polyol")) << c.name;
    }
    EXPECT_FALSE(any_has(notes_with(component::salt), "salt, minerals or a polyol"));  // 5 g: measured
    EXPECT_TRUE(any_has(notes_with(component::salt, 0.4, 128.0), "much of the water is held by salt"));
    EXPECT_TRUE(any_has(notes_with(component::maltitol), "isomalt and maltitol"));
    EXPECT_FALSE(any_has(notes_with(component::sorbitol), "isomalt and maltitol"));
}

}  // namespace
