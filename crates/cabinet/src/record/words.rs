//! The words that a record chooses among.

use super::value::choice;

choice! {
    /// How a piece stands to the person who keeps the cabinet.
    Standing {
        /// In the cabinet.
        Owned = "owned",
        /// Looked for.
        Wanted = "wanted",
        /// Seen and left.
        PassedOver = "passed over",
        /// Was owned, is gone.
        Sold = "sold",
    }
}

#[allow(clippy::derivable_impls, reason = "the macro that makes choices knows no default")]
impl Default for Standing {
    fn default() -> Standing {
        Standing::Owned
    }
}

choice! {
    /// How sure a maker's name is: the words of the list under AAT 300404264 that fit a casting.
    Attribution {
        /// Small doubt.
        Probably = "probably by",
        /// Some doubt; form and features point to it.
        AttributedTo = "attributed to",
        /// Large doubt.
        Possibly = "possibly by",
        /// Was thought to be once.
        Formerly = "formerly attributed to",
        /// Made under that firm, hand not known.
        Manufactory = "manufactory of",
        /// Made in that workshop, hand not known.
        Workshop = "workshop of",
        /// Looks like it, no link is claimed.
        Style = "style of",
        /// Looks like it and may be later.
        Manner = "manner of",
        /// A copy of a known model.
        After = "after",
        /// A copy by a known copyist.
        Copyist = "copyist of",
    }
}

choice! {
    /// What sort of figure a value is. A bare number means nothing.
    Worth {
        /// Between a willing buyer and a willing seller, neither forced, both informed, in the market where such
        /// things are most commonly sold (26 CFR 20.2031-1(b)).
        FairMarket = "fair market",
        /// Estimated exchange at the day, at arm's length, after proper marketing (International Valuation Standards).
        Market = "market",
        /// What another of like age, quality, look and condition would cost within reasonable time.
        Replacement = "replacement",
        /// What a policy without a schedule often pays.
        ActualCash = "actual cash",
        /// A fact: what was asked.
        Asking = "asking",
        /// A fact: what was paid.
        Paid = "paid",
        /// A fact: what a sale brought, with all that the buyer paid.
        SoldGross = "sold gross",
        /// A fact: what a sale brought to the seller.
        SoldNet = "sold net",
    }
}

impl Worth {
    /// What the word means, for a reader.
    #[must_use]
    pub fn meaning(self) -> &'static str {
        match self {
            Worth::FairMarket => {
                "what a willing buyer would pay a willing seller, neither forced, both informed"
            }
            Worth::Market => "the amount for which it should change hands on the day, after proper marketing",
            Worth::Replacement => "what another of like age, quality, look and condition would cost",
            Worth::ActualCash => "what a policy without a schedule often pays",
            Worth::Asking => "what was asked, which nobody need have paid",
            Worth::Paid => "what was paid",
            Worth::SoldGross => "what a sale brought, with all that the buyer paid",
            Worth::SoldNet => "what a sale brought to its seller",
        }
    }
}

choice! {
    /// Whether something is part of a figure, where it is said at all.
    Included {
        /// It is.
        Yes = "yes",
        /// It is not.
        No = "no",
    }
}
